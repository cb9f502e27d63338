// Figures that a hover shows, against cases whose results are known from outside the product.
import assert from 'node:assert/strict';
import { hoverAt, positionOf, showProgram } from './suite-program.ts';
import type { EditorCheck } from './suite-runner.ts';

/** A program around a note. */
function programWith(note: string, process: string): string[] {
  return ['%', 'O9001', 'N10 G21 G90', note, 'N20 S100', `(END ${process})`, 'N30 M30', '%'];
}

async function hoverOf(note: string, process: string, word: RegExp): Promise<string> {
  const { document } = await showProgram(programWith(note, process));
  return hoverAt(document, positionOf(document, word));
}

function hobbingNote(changes: string): string {
  return `(HOBBING: MODULE=3 HOB-DIA=80 FACE=30 SPEED=70 FEED=2.5 ${changes})`;
}

/** A check that a hover holds a figure. Figures are compared as text with the digits that a hover shows at least. */
function figureCheck(name: string, note: string, process: string, word: RegExp, figures: readonly RegExp[]): EditorCheck {
  return {
    name,
    async verify() {
      const hover = await hoverOf(note, process, word);
      for (const figure of figures) assert.match(hover, figure);
    },
  };
}

export const hoverChecks: readonly EditorCheck[] = [
  // The work turns by the hob's starts while the hob turns once for each tooth; 70 m/min on a hob of 80 mm are 278.521
  // revolutions a minute of the hob and 11.60505 of the work (elementary, derived).
  figureCheck('S in a hobbing block: ratio and speeds', hobbingNote('TEETH=24'), 'HOBBING', /S100/, [/1\/24/, /278\.52/, /11\.60[45]/]),
  // One start, module 3, 80 mm outside: lead angle 2.371537 degrees by the formula in technical references on hobs (seen
  // in source; the figure derived), helix angle 90 degrees less that.
  figureCheck('HOB-DIA: lead angle and helix angle', hobbingNote('TEETH=24'), 'HOBBING', /HOB-DIA/, [/2\.3715/, /87\.628/]),
  // Signed setting angles of a 15 degree gear with that hob: 12.62846 and -17.37154 (vector geometry, derived).
  figureCheck('HOB-STARTS: setting angle, equal hands', hobbingNote('TEETH=30 HELIX=15 HOB-STARTS=1'), 'HOBBING', /HOB-STARTS/, [/12\.628/]),
  figureCheck('HOB-STARTS: setting angle, left-hand gear', hobbingNote('TEETH=30 HELIX=15 HAND=LEFT HOB-STARTS=1'), 'HOBBING', /HOB-STARTS/, [/-17\.371/]),
  // 1000 strokes a minute are 0.06 seconds each (common practice).
  figureCheck('S in a keyway block: strokes and seconds', '(KEYWAY: BORE=50 WIDTH=14 DEPTH=3.8 LENGTH=32 RPM=1000 FEED=0.05)', 'KEYWAY', /S100/, [/\b1000\b/, /\b0\.06\b/]),
  // Words of the open standard carry its meaning: ISO 6983-1, from memory.
  figureCheck('G21 outside every block', '(KEYWAY: BORE=50 LENGTH=32 RPM=1000 FEED=0.05)', 'KEYWAY', /G21/, [/millimet|mm/i]),
];
