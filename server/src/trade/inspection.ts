/** Measuring teeth, as quantities. The numbers come from the topic files; each function stands or falls as one. */
import { degrees } from './angles.ts';
import { betweenPins, idealInternalPinDiameter } from './between-pins.ts';
import { gearFigure } from './catalogue-gear.ts';
import { chordalThickness } from './chordal-thickness.ts';
import { gearGeometry, type Gear, type GearInput } from './gear.ts';
import { internalGearGeometry, type InternalGearInput } from './internal-gear.ts';
import { idealPinDiameter, nearestPinDiameter, overPins } from './pins.ts';
import { OutOfRange, shown, type Quantity } from './quantity.ts';
import { correctedX, correctionFromPins, correctionFromSpan } from './size-correction.ts';
import { recommendedSpan, spanOver } from './span.ts';

export interface SpanRequest {
  /** Omitted: the number that brings the anvils nearest to the middle of the flank. */
  readonly spanTeeth?: number | undefined;
  /** When given, a face too narrow for the anvils is refused. */
  readonly faceWidth?: number | undefined;
}

/** Throws `OutOfRange` where no span can be measured. */
export function spanInspection(input: GearInput & SpanRequest): Record<'spanTeeth' | 'spanLength' | 'spanContactDiameter' | 'neededFaceWidth', Quantity> {
  const gear = gearGeometry(input);
  const span = spanFor(gear, input);
  const { units } = gear;
  const baseHelix = shown(degrees(gear.baseHelixAngleRadians));
  return {
    ...spanFigures(gear, input),
    spanContactDiameter: gearFigure('spanContactDiameter', span.contactDiameter, units, () =>
      `sqrt(d_b^2 + (W_k cos beta_b)^2) = sqrt(${shown(gear.baseDiameter)}^2 + (${shown(span.length)} x cos ${baseHelix})^2) = ${shown(span.contactDiameter)}`),
    neededFaceWidth: gearFigure('neededFaceWidth', span.neededFaceWidth, units, () =>
      `W_k sin beta_b = ${shown(span.length)} x sin ${baseHelix} = ${shown(span.neededFaceWidth)}; leave about 2 mm more (from memory)`),
  };
}

/** The two figures of a span that hobbing shows too. */
export function spanFigures(gear: Gear, request: SpanRequest): Record<'spanTeeth' | 'spanLength', Quantity> {
  const span = spanFor(gear, request);
  return {
    spanTeeth: gearFigure('spanTeeth', span.teeth, gear.units, () => `k' = z K + 0.5 = ${shown(span.idealTeeth)}, so k = ${span.teeth}`),
    spanLength: gearFigure('spanLength', span.length, gear.units, () =>
      `m_n cos alpha_n (pi (k - 0.5) + z inv alpha_t) + 2 x m_n sin alpha_n with k ${span.teeth}, z ${gear.teeth}, x ${shown(gear.profileShift)} = ${shown(span.length, 4)}; the anvils touch at diameter ${shown(span.contactDiameter, 4)}`),
  };
}

export interface PinRequest {
  /** Omitted: the nearest usual size. */
  readonly pinDiameter?: number | undefined;
}

/** Throws `OutOfRange` where no pin of the size fits. */
export function pinInspection(input: GearInput & PinRequest): Record<'pinDiameter' | 'overPins' | 'idealPinDiameter' | 'pinContactDiameter' | 'pinCentreAngle', Quantity> {
  const gear = gearGeometry(input);
  const { units } = gear;
  const pins = overPins(gear, pinFor(gear, input));
  const ideal = idealPinDiameter(gear);
  const centreAngle = degrees(pins.centreAngleRadians);
  return {
    ...pinFigures(gear, input),
    idealPinDiameter: gearFigure('idealPinDiameter', ideal, units, () => `touches on the V-circle d + 2 x m_n: ${shown(ideal)}`),
    pinContactDiameter: gearFigure('pinContactDiameter', pins.contactDiameter, units, () =>
      `d_b / cos(atan(tan alpha_Kt - D cos beta_b / d_b)) with alpha_Kt ${shown(centreAngle)} = ${shown(pins.contactDiameter)}`),
    pinCentreAngle: gearFigure('pinCentreAngle', centreAngle, units, () =>
      `inv^-1(s_t/d + D/(z m_n cos alpha_n) - pi/z + inv alpha_t) with D ${shown(pins.pinDiameter)} = ${shown(centreAngle)}`),
  };
}

/** The two figures of pins that hobbing shows too. */
export function pinFigures(gear: Gear, request: PinRequest): Record<'pinDiameter' | 'overPins', Quantity> {
  const pins = overPins(gear, pinFor(gear, request));
  const { units } = gear;
  const given = request.pinDiameter === undefined ? `nearest usual size to the ideal pin ${shown(idealPinDiameter(gear), 4)}: ` : 'as given: ';
  return {
    pinDiameter: gearFigure('pinDiameter', pins.pinDiameter, units, () => given + shown(pins.pinDiameter)),
    overPins: gearFigure('overPins', pins.measure, units, () => {
      const factor = oddFactor(gear.teeth);
      return `d_K${factor} + D_M = ${shown(pins.centreDiameter)}${factor} + ${shown(pins.pinDiameter)} = ${shown(pins.measure, 4)} with d_K = d_b / cos ${shown(degrees(pins.centreAngleRadians))}`;
    }),
  };
}

/** Balls or pins in an internal gear. Throws `OutOfRange` where none of the size fits. */
export function internalPinInspection(input: InternalGearInput & PinRequest): Record<'pinDiameter' | 'betweenPins' | 'idealInternalPinDiameter' | 'pinContactDiameter', Quantity> {
  const gear = internalGearGeometry(input);
  const { units } = gear;
  const ideal = idealInternalPinDiameter(gear);
  const pins = betweenPins(gear, input.pinDiameter ?? ideal);
  const factor = oddFactor(gear.teeth);
  return {
    pinDiameter: gearFigure('pinDiameter', pins.pinDiameter, units, () => (input.pinDiameter === undefined ? 'the ideal pin: ' : 'as given: ') + shown(pins.pinDiameter)),
    betweenPins: gearFigure('betweenPins', pins.measure, units, () =>
      `d_K${factor} - D_M = ${shown(pins.centreDiameter)}${factor} - ${shown(pins.pinDiameter)} = ${shown(pins.measure, 4)} with d_K = d_b / cos ${shown(degrees(pins.centreAngleRadians))}`),
    idealInternalPinDiameter: gearFigure('idealInternalPinDiameter', ideal, units, () => `touches on the V-circle d + 2 x m_n: ${shown(ideal)}`),
    pinContactDiameter: gearFigure('pinContactDiameter', pins.contactDiameter, units, () =>
      `d_b / cos(atan(tan alpha_Kt + D cos beta_b / d_b)) = ${shown(pins.contactDiameter)}`),
  };
}

/** What a gear tooth caliper is set to and reads. */
export function chordalInspection(input: GearInput): Record<'chordalHalfAngle' | 'chordalThickness' | 'chordalHeight', Quantity> {
  const gear = gearGeometry(input);
  const chord = chordalThickness(gear);
  const angle = shown(chord.halfAngleDegrees);
  return {
    chordalHalfAngle: gearFigure('chordalHalfAngle', chord.halfAngleDegrees, gear.units, () => `s_n / (z_v m_n), in degrees = ${angle}`),
    chordalThickness: gearFigure('chordalThickness', chord.thickness, gear.units, () => `z_v m_n sin theta with theta ${angle} = ${shown(chord.thickness)}`),
    chordalHeight: gearFigure('chordalHeight', chord.height, gear.units, () => `h_a + z_v m_n (1 - cos theta) / 2 with theta ${angle} = ${shown(chord.height)}`),
  };
}

export interface CorrectionRequest {
  /** The X word of the cut that was measured. */
  readonly x: number;
  readonly diameterProgramming: boolean;
  /** The size that was measured. */
  readonly measured: number;
  /** The size that the drawing wants; omitted: the computed one without backlash. */
  readonly wanted?: number | undefined;
}

/** From a measured span to the new X word. */
export function correctionFromMeasuredSpan(input: GearInput & SpanRequest & CorrectionRequest): Record<'spanCorrection' | 'correctedX', Quantity> {
  const gear = gearGeometry(input);
  const wanted = input.wanted ?? spanFor(gear, input).length;
  const step = correctionFromSpan(gear, input.measured - wanted);
  return {
    spanCorrection: gearFigure('spanCorrection', step, gear.units, () =>
      `dW / (2 sin alpha_n) = (${shown(input.measured)} - ${shown(wanted)}) / (2 sin ${shown(input.normalPressureAngleDegrees)}) = ${shown(step, 6)}`),
    correctedX: correctedFigure(gear, input, step),
  };
}

/** From a measured size over pins to the new X word. */
export function correctionFromMeasuredPins(input: GearInput & PinRequest & CorrectionRequest): Record<'pinsCorrection' | 'correctedX', Quantity> {
  const gear = gearGeometry(input);
  const pins = overPins(gear, pinFor(gear, input));
  const wanted = input.wanted ?? pins.measure;
  const step = correctionFromPins(gear, pins.pinDiameter, input.measured - wanted);
  return {
    pinsCorrection: gearFigure('pinsCorrection', step, gear.units, () =>
      `dM sin alpha_Kt / (2 sin alpha_t)${gear.teeth % 2 === 0 ? '' : ` / cos(90/${gear.teeth})`} with dM ${shown(input.measured - wanted)}, alpha_Kt ${shown(degrees(pins.centreAngleRadians))} = ${shown(step, 6)}`),
    correctedX: correctedFigure(gear, input, step),
  };
}

function correctedFigure(gear: Gear, request: CorrectionRequest, step: number): Quantity {
  const x = correctedX(request.x, step, request.diameterProgramming);
  const factor = request.diameterProgramming ? '2 x ' : '';
  return gearFigure('correctedX', x, gear.units, () => `X - ${factor}dX = ${shown(request.x)} - ${factor}${shown(step)} = ${shown(x)}`);
}

function spanFor(gear: Gear, { spanTeeth, faceWidth }: SpanRequest): ReturnType<typeof spanOver> {
  const span = spanTeeth === undefined ? recommendedSpan(gear) : spanOver(gear, spanTeeth);
  if (faceWidth !== undefined && span.neededFaceWidth > faceWidth) {
    throw new OutOfRange('faceWidth', faceWidth, `at least ${shown(span.neededFaceWidth, 3)}`, 'a span over helical teeth needs room for both anvils');
  }
  return span;
}

const pinFor = (gear: Gear, { pinDiameter }: PinRequest): number => pinDiameter ?? nearestPinDiameter(gear);

const oddFactor = (teeth: number): string => (teeth % 2 === 0 ? '' : ` x cos(90/${teeth})`);
