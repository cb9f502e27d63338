/**
 * What a keyway is computed from, its defaults, and the refusal of inputs that
 * no formula holds for. Knows no machine: limits of a unit or of a control are
 * checked where the machine is known.
 */
import { count, inRange, lengthOrZero, positiveLength, turningSpeed } from './domain.ts';
import type { KeyShape } from './key-standards.ts';
import { OutOfRange, shown, type Units } from './quantity.ts';

/**
 * The strokes that cut a slot, whatever its section. All lengths are in `units`;
 * lengths along Z are positive distances.
 */
export interface StrokeInput {
  units: Units;
  /** Of the slot, along Z. */
  length: number;
  method: 'driven' | 'static';
  /** Speed of the driven tool in 1/min; needed for the driven method. */
  toolRpm?: number;
  /** Strokes per revolution of the driven tool. */
  strokeRatio: number;
  /** Radial advance each stroke. */
  feedPerStroke: number;
  sparkOutStrokes: number;
  leadIn: number;
  leadOut: number;
  /** As set on the unit; what it has beyond the need lies before the face. Left out: what is needed. */
  stroke?: number;
  /** Width along Z of the relief groove at the slot's end; 0 for a through slot. */
  relief: number;
  /** Static method: of the cutting stroke, in m/min or ft/min. */
  cuttingSpeed?: number;
  /** Static method: of the return stroke, in m/min or ft/min. */
  returnSpeed?: number;
  /** Static method: of lifting off and advancing, in m/min or ft/min. */
  liftSpeed?: number;
  /** Static method: radial distance between the floor and the edge on its way back. */
  liftOff?: number;
  /** The F of an X move counts on the diameter. Left out: false, F is the true speed of the tool. */
  xFeedOnDiameter?: boolean;
}

/**
 * All lengths are in `units`, angles in degrees. X points from the axis into the
 * slot, Z from the work's face away from the work.
 */
export interface KeywayInput extends StrokeInput {
  boreDiameter: number;
  /** Left out: DIN 6885-1 by bore (mm) or ASME B17.1 by bore (inch). */
  width?: number;
  /** At the centre line, from the bore's circle. Left out: by bore as the width. */
  depth?: number;
  /** Shape of an inch key whose depth is left out. Left out: the shape that B17.1 prefers. */
  keyShape?: KeyShape;
  /** ISO 286 class of a hole, such as JS9; in inch also CLASS1 and CLASS2 of B17.1. */
  fit: string;
  /** Left out: the width of the keyway. */
  insertWidth?: number;
  /** Number of keyways, evenly spaced. */
  count: number;
  startAngleDegrees: number;
  /** X words count diameters. */
  diameterProgramming: boolean;
  /** Radial gap between the edge's corner and the bore at the start of the X feed. Left out: 0. */
  clearance?: number;
}

/**
 * Static box cycle. The lift-off is the middle of what is usual, from memory;
 * the speeds are starting values without a source, for the user to change to
 * what the machine does.
 */
export const BOX_CYCLE_DEFAULTS: Readonly<Record<Units, { liftOff: number; liftSpeed: number; returnSpeed: number }>> = {
  mm: { liftOff: 0.5, liftSpeed: 2, returnSpeed: 20 },
  inch: { liftOff: 0.02, liftSpeed: 6.5, returnSpeed: 65 },
};

/** More strokes than this in one pass are a slip of the keys. */
export const MOST_STROKES_PER_PASS = 1e6;

/** Lead-in, keyway and lead-out together: the least stroke that cuts the keyway. */
export function neededStroke({ length, leadIn, leadOut }: StrokeInput): number {
  return length + leadIn + leadOut;
}

/** Throws `OutOfRange` on the first field that is wrong by itself or beside its neighbours. */
export function checkKeywayInput(input: KeywayInput): void {
  positiveLength('boreDiameter', input.boreDiameter);
  checkSection(input);
  checkStrokeInput(input);
  if (input.clearance !== undefined) lengthOrZero('clearance', input.clearance);
  count('count', input.count);
  inRange('startAngleDegrees', input.startAngleDegrees, { atLeast: -360, atMost: 360 });
}

/** Throws `OutOfRange` on the first field of the strokes that is wrong by itself or beside its neighbours. */
export function checkStrokeInput(input: StrokeInput): void {
  checkStroke(input);
  checkFeed(input);
  if (input.method === 'driven') checkDriven(input);
  else checkStatic(input);
}

function checkSection({ boreDiameter, width, depth, insertWidth, fit }: KeywayInput): void {
  if (typeof fit !== 'string') throw new OutOfRange('fit', fit, 'a class of fit in words');
  if (width !== undefined) inRange('width', width, { over: 0, under: boreDiameter, reason: 'a keyway is narrower than its bore' });
  if (depth !== undefined) inRange('depth', depth, { over: 0, atMost: boreDiameter });
  if (insertWidth !== undefined) positiveLength('insertWidth', insertWidth);
}

function checkStroke(input: StrokeInput): void {
  positiveLength('length', input.length);
  lengthOrZero('leadIn', input.leadIn);
  lengthOrZero('leadOut', input.leadOut);
  lengthOrZero('relief', input.relief);
  checkRelief(input);
  if (input.stroke === undefined) return;
  inRange('stroke', input.stroke, {
    atLeast: neededStroke(input),
    atMost: 1e5,
    reason: `length ${shown(input.length)} and lead-in ${shown(input.leadIn)} and lead-out ${shown(input.leadOut)}`,
  });
}

function checkRelief({ relief, leadOut }: StrokeInput): void {
  if (relief === 0) return;
  inRange('relief', relief, {
    atLeast: leadOut,
    atMost: 1e5,
    reason: 'the stroke ends inside the relief groove, or 0 for a through slot',
  });
}

function checkFeed({ feedPerStroke, sparkOutStrokes }: StrokeInput): void {
  positiveLength('feedPerStroke', feedPerStroke);
  count('sparkOutStrokes', sparkOutStrokes, 0);
}

function checkDriven({ toolRpm, strokeRatio }: StrokeInput): void {
  turningSpeed('toolRpm', toolRpm ?? NaN);
  inRange('strokeRatio', strokeRatio, { over: 0, atMost: 100 });
}

function checkStatic({ method, cuttingSpeed, returnSpeed, liftSpeed, liftOff }: StrokeInput): void {
  if (method !== 'static') throw new OutOfRange('method', method, 'driven or static');
  speed('cuttingSpeed', cuttingSpeed ?? NaN);
  if (returnSpeed !== undefined) speed('returnSpeed', returnSpeed);
  if (liftSpeed !== undefined) speed('liftSpeed', liftSpeed);
  if (liftOff !== undefined) lengthOrZero('liftOff', liftOff);
}

function speed(parameter: string, value: number): void {
  inRange(parameter, value, { over: 0, atMost: 1e5 });
}
