// The main job seen in a window: rest the mouse on a word of a demo program and read the figures that it governs. What is
// expected is worked out here from the parameters in the program's own note, by formulas that share no code with the
// product.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { noteValues, placeIn, processBlock } from './places.mjs';
import { openEditorSession } from './session.mjs';

let session;
let hobbing;
let keyway;

beforeAll(async () => {
  session = await openEditorSession();
  const program = readFileSync(session.demo.program, 'utf8');
  hobbing = processBlock(program, 'HOBBING');
  keyway = processBlock(program, 'KEYWAY');
  await session.workbench.load(session.addressOf(session.demo.program));
});

afterAll(() => session?.close());

const degrees = (radians) => (radians * 180) / Math.PI;

/** Sine of the lead angle = starts x module / reference diameter: technical references on hobs (seen in source). */
function leadAngleDegrees({ MODULE, 'HOB-DIA': outside, 'HOB-STARTS': starts = '1' }) {
  const referenceDiameter = Number(outside) - 2 * 1.25 * Number(MODULE);
  return degrees(Math.asin((Number(starts) * Number(MODULE)) / referenceDiameter));
}

/** The number that follows a name in a hover, wherever its unit and the layout put it. */
function figure(hover, name) {
  const found = new RegExp(`${name}\\s+([-+]?[\\d.]+)`, 'i').exec(hover);
  return found ? Number(found[1]) : undefined;
}

describe('in a hobbing block', () => {
  test('S leads with the ratio of work to hob and shows the speed of the work', async () => {
    const values = noteValues(hobbing);
    const hover = await session.workbench.hover(placeIn(hobbing, /\bS\d+/), /revolutions/i);
    // Kinematics of hob and work: the work turns by the hob's starts while the hob turns once for each tooth (derived).
    expect(hover).toMatch(new RegExp(`^\\s*${values['HOB-STARTS'] ?? 1}/${values.TEETH}\\b`));
    const hobRpm = (1000 * Number(values.SPEED)) / (Math.PI * Number(values['HOB-DIA']));
    expect(figure(hover, 'Speed of the work')).toBeCloseTo((hobRpm * Number(values['HOB-STARTS'] ?? 1)) / Number(values.TEETH), 3);
    expect(figure(hover, 'Cutting speed[^\\t\\n]*')).toBeCloseTo(Number(values.SPEED), 3);
  });

  test.each(['HOB-STARTS', 'HOB-DIA'])('%s shows lead angle, helix angle and setting angle', async (name) => {
    const values = noteValues(hobbing);
    const lead = leadAngleDegrees(values);
    const hover = await session.workbench.hover(placeIn(hobbing, new RegExp(`${name}(?==)`)), /lead angle/i);
    expect(Number(/^\s*(-?[\d.]+)/.exec(hover)?.[1])).toBeCloseTo(lead, 4);
    // The helix angle of the hob is a right angle less its lead angle (shop usage; both are named).
    expect(figure(hover, 'Helix angle of the hob[^\\t\\n]*')).toBeCloseTo(90 - lead, 3);
    // Same hands: the amounts subtract, the sign is that of the gear's hand (vector geometry, derived).
    expect(values.HAND).toBe('RIGHT');
    expect(values['HOB-HAND']).toBe('RIGHT');
    expect(figure(hover, 'Setting angle[^\\t\\n]*')).toBeCloseTo(Number(values.HELIX) - lead, 3);
  });
});

describe('in a keyway block', () => {
  test.each([
    ['S', /\bS\d+/],
    ['RPM', /RPM(?==)/],
  ])('%s shows strokes a minute and seconds per stroke', async (_name, pattern) => {
    const rpm = Number(noteValues(keyway).RPM);
    const hover = await session.workbench.hover(placeIn(keyway, pattern), /stroke/i);
    // One revolution of the driven tool is one stroke: 60 seconds shared by the strokes of a minute (kinematics, derived).
    expect(Number(/^\s*(-?[\d.]+)/.exec(hover)?.[1])).toBeCloseTo(rpm, 6);
    expect(figure(hover, 'Time of one stroke')).toBeCloseTo(60 / rpm, 4);
  });
});

test('a word outside every block shows its standard meaning and what is in force there', async () => {
  const turning = { first: 1, text: readFileSync(session.demo.program, 'utf8') };
  const hover = await session.workbench.hover(placeIn(turning, /\bG96\b/), /constant/i);
  expect(hover).toMatch(/mm/);
});
