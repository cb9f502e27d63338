import { describe, expect, it } from 'vitest';
import { engraving } from '../../../server/src/process/engraving.ts';
import { hobbing } from '../../../server/src/process/hobbing.ts';
import { keyway } from '../../../server/src/process/keyway.ts';
import type { Process } from '../../../server/src/process/process.ts';
import { processes } from '../../../server/src/process/processes.ts';
import { materialFields } from '../../../server/src/process/usual-ranges.ts';
import { inch, metric, values } from './figures.ts';

const gear = 'MODULE=2 TEETH=32 FACE=20 HOB-DIA=63 FEED=1.5';
const slot = 'BORE=30 LENGTH=25 FEED=0.05';

function hint(process: Process, text: string, name: string, setting = metric): string | undefined {
  return process.hints(values(text), setting)[name];
}

/** What is said of an unusual speed: the parameter and the message. */
function said(process: Process, text: string, setting = metric): string[] {
  return process.evaluate(values(text), setting).problems.filter(({ rule }) => rule === 'usual-range').map(({ severity, message }) => `${severity} ${message}`);
}

describe('hints', () => {
  it('name the usual speed of a hob for the material [common practice, no source]', () => {
    expect(hint(hobbing, 'MATERIAL=STAINLESS-STEEL', 'SPEED')).toBe('Usual for stainless steel: 25 to 45 m/min with coated high-speed steel, 80 to 140 m/min with coated carbide (common practice, no source).');
    expect(hint(hobbing, 'MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS', 'SPEED')).toBe('Usual for stainless steel: 25 to 45 m/min with coated high-speed steel (common practice, no source).');
  });

  it('name the usual feed, and the one of a turret [common practice, no source]', () => {
    expect(hint(hobbing, 'MATERIAL=STAINLESS-STEEL', 'FEED')).toBe('Usual for stainless steel: 0.8 to 1.2 mm/rev to finish, 1 to 1.8 mm/rev to rough, 0.4 to 1.2 mm/rev in a turret with driven tools, whatever the material (common practice, no source).');
  });

  it('count in feet and inches in an inch program [definition of the inch: 45 m/min are 148 ft/min, 1.2 mm are 0.0472 inch]', () => {
    expect(hint(hobbing, 'MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS', 'SPEED', inch)).toMatch(/: 82 to 148 ft\/min with/);
    expect(hint(hobbing, 'MATERIAL=STAINLESS-STEEL', 'FEED', inch)).toMatch(/: 0\.0315 to 0\.0472 inch\/rev to finish/);
    expect(hint(keyway, 'MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS', 'RPM', inch)).toMatch(/17\.7 to 47\.2 ft\/min/);
  });

  it('name the peak speed of slotting: 60 to 80 % of the turning speed [9 to 18 m/min in college design tables, seen in source; the share from memory]', () => {
    expect(hint(keyway, 'MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS', 'RPM')).toBe('Usual peak speed for stainless steel: 5.4 to 14.4 m/min with high-speed steel (60 to 80 % of the turning speed as peak speed; from memory).');
    expect(hint(keyway, 'MATERIAL=STAINLESS-STEEL', 'FEED')).toBe('Usual for stainless steel: 0.02 to 0.03 mm/stroke (slotting practice by material; from memory).');
  });

  it('name the speed of a static stroke, whatever the material [from memory]', () => {
    expect(hint(keyway, 'METHOD=STATIC', 'SPEED')).toBe('Usual: 5 to 15 m/min (box cycle with a static tool; from memory).');
    expect(hint(keyway, 'METHOD=DRIVEN', 'SPEED')).toBeUndefined();
  });

  it('name chip load and depth of engraving [from memory]', () => {
    expect(hint(engraving, '', 'CHIP-LOAD')).toBe('Usual: 0.002 to 0.01 mm/tooth (engraving of metals; from memory).');
    expect(hint(engraving, '', 'DEPTH')).toBe('Usual: 0.05 to 0.3 mm (engraving of metals; from memory).');
  });

  it('say what gives them as long as the material is not said', () => {
    expect(hint(hobbing, '', 'SPEED')).toBe('MATERIAL gives the usual range.');
    expect(hint(keyway, '', 'FEED')).toBe('MATERIAL gives the usual range.');
  });

  it('are none where no range is known', () => {
    expect(hint(keyway, 'MATERIAL=ALLOY-STEEL', 'RPM')).toBeUndefined();
    expect(hint(keyway, 'MATERIAL=HEAT-TREATED-STEEL', 'RPM')).toBeUndefined();
  });

  it('stand at parameters of the process, for every material and tool', () => {
    for (const process of processes) {
      for (const material of materialFields.MATERIAL.choices) {
        for (const tool of materialFields['TOOL-MATERIAL'].choices) {
          const hints = process.hints({ MATERIAL: material, 'TOOL-MATERIAL': tool }, metric);
          for (const [name, text] of Object.entries(hints)) {
            expect(Object.keys(process.fields)).toContain(name);
            expect(text).not.toMatch(/NaN|undefined|Infinity/);
          }
        }
      }
    }
  });

  it('change no figure and no word of a block', () => {
    const bare = `${gear} SPEED=40`;
    const told = `${bare} MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS`;
    expect(hobbing.evaluate(values(told), metric)).toEqual(hobbing.evaluate(values(bare), metric));
    expect(hobbing.compose(values(told), metric).lines).toEqual(hobbing.compose(values(bare), metric).lines);
  });
});

describe('a speed outside what is usual', () => {
  it.each<[string, Process, string, RegExp | undefined]>([
    ['too fast for a hob', hobbing, `${gear} SPEED=46 MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS`, /^information SPEED: the cutting speed of 46 m\/min is outside what is usual for stainless steel: 25 to 45 m\/min/],
    ['at its upper end', hobbing, `${gear} SPEED=45 MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS`, undefined],
    ['at its lower end', hobbing, `${gear} SPEED=25 MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS`, undefined],
    ['too slow for a hob', hobbing, `${gear} SPEED=24.9 MATERIAL=STAINLESS-STEEL`, /outside/],
    ['between the tools, whose material is not said', hobbing, `${gear} SPEED=60 MATERIAL=STAINLESS-STEEL`, /25 to 45 .* 80 to 140/],
    ['right for carbide, where the tool may be of it', hobbing, `${gear} SPEED=100 MATERIAL=STAINLESS-STEEL`, undefined],
    ['given by the revolutions', hobbing, `${gear} RPM=1000 MATERIAL=STAINLESS-STEEL`, /^information RPM: the cutting speed of 197\.9 m\/min/],
    ['of a material that is not said', hobbing, `${gear} SPEED=900`, undefined],
    ['of driven strokes', keyway, `${slot} RPM=500 MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS`, /^information RPM: the peak speed of [\d.]+ m\/min is outside .* 5\.4 to 14\.4/],
    ['of driven strokes that are slow enough', keyway, `${slot} RPM=140 MATERIAL=STAINLESS-STEEL TOOL-MATERIAL=HSS`, undefined],
    ['of a static tool, which no material decides', keyway, `${slot} METHOD=STATIC SPEED=100 MATERIAL=STAINLESS-STEEL`, undefined],
  ])('%s', (_name, process, text, expected) => {
    const found = said(process, text);
    expect(found).toHaveLength(expected ? 1 : 0);
    if (expected) expect(found[0]).toMatch(expected);
  });
});
