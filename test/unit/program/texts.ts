/** Texts for property tests: anything at all, and texts that look like programs. */
import fc from 'fast-check';

const fragments = [
  'G', 'X', 'N10', 'O1', '%', '/', '(', ')', ';', '#1=', '#', '[', ']', '<syncOn>', '<', '>', '-', '+', '.', '1', '23', '4.5', ' ', '\t',
  'SIN', 'ATAN[1]/[2]', 'MOD', '**', '=', ':', '@', '\u00e4', '\ud800', '\udc00', '\u{1f600}', '\u0000', '\ufeff', 'M30', 'e',
];

export const anyText: fc.Arbitrary<string> = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 60 }).map((text) => text.replace(/[\r\n]/g, ' ')),
  fc.array(fc.constantFrom(...fragments), { maxLength: 30 }).map((parts) => parts.join('')),
);

const number = fc.oneof(
  fc.integer({ min: -200, max: 200 }).map(String),
  fc.double({ min: -200, max: 200, noNaN: true }).map((value) => value.toFixed(3)),
  fc.constantFrom('#1', '#2', '[#1+1]', '[#2*2]', '', '.', '-'),
);

const word = fc.oneof(
  { weight: 4, arbitrary: fc.tuple(fc.constantFrom(...'XYZUVWABCFSTRIJKLPQDHN'), number).map(([letter, value]) => letter + value) },
  { weight: 3, arbitrary: fc.constantFrom('G0', 'G1', 'G2', 'G3', 'G4', 'G17', 'G18', 'G19', 'G20', 'G21', 'G28', 'G33', 'G40', 'G41', 'G43', 'G53', 'G54', 'G55', 'G80', 'G81', 'G83', 'G86', 'G90', 'G91', 'G92', 'G92.1', 'G93', 'G94', 'G95', 'G96', 'G97', 'G98', 'G99', 'G10', 'G126', 'G136', 'G137', 'G190', 'G191', 'G229', 'G999') },
  { weight: 2, arbitrary: fc.constantFrom('M2', 'M3', 'M4', 'M5', 'M6', 'M8', 'M9', 'M30', 'M98', 'M99', 'M120', 'M191', 'M192', 'M193', 'M194', 'M195', 'M203', 'M205', 'M303', 'M777') },
  { weight: 1, arbitrary: fc.constantFrom('#1=5', '#2=[#1*2]', '#1=#2', '(HOBBING: TEETH=24)', '(END HOBBING)', '(open', ';note', '%', '/', 'O100', '@', '<syncOn>') },
);

export const programLine: fc.Arbitrary<string> = fc.array(word, { maxLength: 6 }).map((words) => words.join(' '));

const lineEnd = fc.constantFrom('\n', '\n', '\n', '\r\n', '\r');

/** A program with mixed line ends. */
export const programText: fc.Arbitrary<string> = fc.array(fc.tuple(programLine, lineEnd), { maxLength: 60 })
  .map((lines) => lines.map(([line, end]) => line + end).join(''));
