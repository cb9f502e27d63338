/**
 * The one renderer of explanations as Markdown. The leading figure comes first
 * and large, then a small table, the working, the source. Program text is
 * escaped here and nowhere else.
 */
import type { Quantity } from '../trade/quantity.ts';
import type { Explanation } from './explain.ts';
import { capitalised, valueWithUnit, workingWithSymbol } from './figures.ts';

/** Rows beyond these make a hover that nobody reads; the rest is on the command line. */
const mostRows = 7;
const mostContextRows = 9;
const mostOfWord = 60;
const mostOfTitle = 120;
const mostOfSentence = 1000;

export function explanationMarkdown(explanation: Explanation): string {
  const lead = explanation.governed > 0 ? explanation.quantities[0] : undefined;
  const parts = [
    lead ? leadHeading(lead) : `#### ${escaped(shortened(explanation.word))}: ${escaped(shortened(explanation.title, mostOfTitle))}`,
    problemLines(explanation),
    lead ? figureTable(explanation) : '',
    lead ? escaped(workingWithSymbol(lead)) : '',
    lead ? `*Source: ${escaped(lead.source)}*` : '',
    lead ? '---' : '',
    meaningLine(explanation, lead !== undefined),
    contextLine(explanation),
  ];
  return parts.filter((part) => part !== '').join('\n\n');
}

function leadHeading(lead: Quantity): string {
  return `### ${escaped(valueWithUnit(lead))}\n\n**${escaped(capitalised(lead.name))}**`;
}

const severityNames = { error: 'Error', warning: 'Warning', information: 'Note' } as const;

function problemLines({ problems }: Explanation): string {
  return problems.map(({ severity, message }) => `**${severityNames[severity]}:** ${escaped(shortened(message, mostOfSentence))}`).join('\n\n');
}

function figureTable({ quantities, governed }: Explanation): string {
  const rows = quantities.slice(1, Math.min(governed, mostRows));
  if (rows.length === 0) return '';
  return ['| | |', '|:--|--:|', ...rows.map((each) => `| ${escaped(capitalised(each.name))} | ${escaped(valueWithUnit(each))} |`)].join('\n');
}

function meaningLine({ word, title, meaning, source }: Explanation, withTitle: boolean): string {
  const heading = withTitle ? `**${escaped(shortened(word))}** ${escaped(shortened(title, mostOfTitle))}. ` : '';
  return `${heading}${escaped(shortened(meaning, mostOfSentence))} *${escaped(source)}*`;
}

function contextLine({ context }: Explanation): string {
  return context.slice(0, mostContextRows).map(({ label, value }) => `${escaped(label)} ${escaped(value)}`).join(' · ');
}

/** Text of the program has no bounds: what a reader can take in is enough of it. */
function shortened(text: string, most = mostOfWord): string {
  return text.length > most ? `${text.slice(0, most)}…` : text;
}

/** Most texts hold nothing of what is escaped, and one look tells. */
const mayNeedEscape = /[\u0000-\u001f\u007f\ud800-\udfff&<>\\`*_{}[\]#!|~$@]|:\/\/|www\./i;

/**
 * Everything that Markdown or HTML could read as markup inside a line. Points,
 * signs and parentheses stay, so that figures read the same in the raw text.
 * Control characters and lone surrogates become a question mark.
 */
export function escaped(text: string): string {
  if (!mayNeedEscape.test(text)) return text;
  return text
    .replace(/[\u0000-\u001f\u007f]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '?')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/[\\`*_{}[\]#!|~$]/g, '\\$&')
    .replace(/@/g, '&#64;')
    .replace(/:(?=\/\/)/g, '&#58;')
    .replace(/www\./gi, 'www&#46;');
}
