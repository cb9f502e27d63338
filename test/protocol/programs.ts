/** Programs of the protocol tests. Places in them are found by their text. */
export const program = 'file:///shop/part.nc';

export const hobbingText = [
  'G21 G90 G94',
  '(HOBBING: MODULE=3 TEETH=24 HOB-DIA=80 FACE=30 SPEED=70 FEED=2.5)',
  '(+ HOB-STARTS=1)',
  'G97 S279',
  'G01 Z-33. F29.013',
  '(END HOBBING)',
  'M30',
].join('\n');

export const keywayText = [
  'G21 G90 G94',
  '(KEYWAY: BORE=50 WIDTH=14 DEPTH=3.8 LENGTH=32 RPM=1000)',
  '(+ LEAD-IN=1.5 LEAD-OUT=1.5 FEED=0.05)',
  'G97 S1000',
  '(END KEYWAY)',
  'M30',
].join('\n');

/** Where a word first stands. */
export function placeOf(text: string, word: string): { line: number; character: number } {
  const lines = text.split('\n');
  const line = lines.findIndex((each) => each.includes(word));
  if (line < 0) throw new Error(`no ${word}`);
  return { line, character: (lines[line] ?? '').indexOf(word) };
}
