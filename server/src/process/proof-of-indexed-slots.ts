/**
 * What the form in a SLOTTING note is and which insert cuts it, worked out from
 * the note again: a proof must not lean on the plan of what it proves.
 */
import type { InsertEdge, PointedEdge } from '../cut/slot-cut.ts';
import type { SlotStretch } from '../cut/slot-stretch.ts';
import { radians } from '../trade/angles.ts';
import type { ProofValues } from './proof-values.ts';

type Made = Pick<SlotStretch, 'form' | 'anglesDegrees' | 'edge'>;

/** The note must be free of errors. Lengths in mm. */
export function indexedSlotsOf(values: ProofValues): Made {
  switch (values.word('SHAPE')) {
    case 'SQUARE': return polygonOf(4, values);
    case 'HEXAGON': return polygonOf(6, values);
    case 'SERRATION': return serrationOf(values);
    default: return straightSplineOf(values);
  }
}

/** Without a width in the note the insert reaches from the middle of one flat to the middle of the next. */
function polygonOf(sides: number, values: ProofValues): Made {
  const acrossFlats = values.length('ACROSS-FLATS') ?? NaN;
  const halfFlat = (acrossFlats / 2) * Math.tan(Math.PI / sides);
  const flatness = values.length('FLATNESS');
  return {
    form: { kind: 'polygon', acrossFlats, ...(flatness === undefined ? {} : { flatness }) },
    anglesDegrees: angles(sides, values),
    edge: { insertWidth: values.length('INSERT') ?? 2 * halfFlat * Math.cos(Math.PI / sides), point: pointOf(180 - 360 / sides, 0) },
  };
}

function serrationOf(values: ProofValues): Made {
  const includedAngleDegrees = values.number('INCLUDED-ANGLE') ?? NaN;
  const tipFlat = values.length('TIP-FLAT') ?? 0;
  const depth = ((values.length('OUTER-DIA') ?? NaN) - (values.length('BORE') ?? NaN)) / 2;
  const widthAt = (below: number): number => tipFlat + 2 * (depth - below) * Math.tan(radians(includedAngleDegrees / 2));
  return {
    form: { kind: 'groove', includedAngleDegrees, depth, width: widthAt(depth / 2) },
    anglesDegrees: angles(values.number('COUNT') ?? NaN, values),
    edge: { insertWidth: values.length('INSERT') ?? widthAtBore((values.length('BORE') ?? NaN) / 2, depth, includedAngleDegrees, tipFlat), point: pointOf(includedAngleDegrees, tipFlat) },
  };
}

/** Where the flanks of the groove come out on the circle of the bore: the farther root of the line and the circle. */
function widthAtBore(boreRadius: number, depth: number, includedAngleDegrees: number, tipFlat: number): number {
  const slope = Math.tan(radians(includedAngleDegrees / 2));
  const apex = boreRadius + depth + tipFlat / 2 / slope;
  const x = (apex * slope ** 2 + Math.sqrt(apex ** 2 * slope ** 4 - (1 + slope ** 2) * (apex ** 2 * slope ** 2 - boreRadius ** 2))) / (1 + slope ** 2);
  return 2 * (apex - x) * slope;
}

/** The limits of the space are those of the standard, which only its table gives. */
function straightSplineOf(values: ProofValues): Made {
  const leastWidth = values.computedLength('spaceWidth') ?? NaN;
  return {
    form: { kind: 'slot', leastWidth, greatestWidth: values.computedLength('spaceWidthUpper') ?? NaN, depth: ((values.length('OUTER-DIA') ?? NaN) - (values.length('BORE') ?? NaN)) / 2 },
    anglesDegrees: angles(values.number('COUNT') ?? NaN, values),
    edge: { insertWidth: values.length('INSERT') ?? leastWidth } satisfies InsertEdge,
  };
}

function pointOf(includedAngleDegrees: number, tipFlat: number): PointedEdge {
  return { tipFlat, fall: 1 / Math.tan(radians(includedAngleDegrees / 2)) };
}

function angles(count: number, values: ProofValues): number[] {
  return Array.from({ length: count }, (_, index) => (values.number('ANGLE') ?? 0) + (index * 360) / count);
}
