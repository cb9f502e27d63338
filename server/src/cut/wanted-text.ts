import { strokesOfText, widthOfText } from '../trade/strokes.ts';
import type { Line } from './drawn-lines.ts';

/** One letter of a wanted text as lines, from the start of the baseline. Lengths in mm. */
export interface WantedLetter {
  character: string;
  /** Counted from 1, blanks included. */
  place: number;
  lines: Line[];
}

/** The letters that draw something. */
export function wantedLetters(text: string, height: number): WantedLetter[] {
  const characters = [...text];
  return characters.flatMap((character, index) => {
    if (character.trim() === '') return [];
    const left = index === 0 ? 0 : widthOfText(characters.slice(0, index).join(''), height);
    return [{ character, place: index + 1, lines: linesOf(character, height, left) }];
  });
}

function linesOf(character: string, height: number, left: number): Line[] {
  return strokesOfText(character, height).flatMap((stroke) => {
    const points = stroke.map(({ along, up }) => ({ along: left + along, up }));
    return points.slice(1).map((to, index) => ({ from: points[index]!, to }));
  });
}
