/**
 * The machine card: what one machine can do and how its control says it.
 *
 * The card is data that the user owns. Nothing here knows a program, a gear or
 * an editor, and nothing here guesses: what a card leaves out stays out, and
 * whoever needs it writes a visible hole (see template.ts) and an error.
 */
import * as z from 'zod';
import { templateFault } from './template.ts';

const rpm = (what: string, most: number) => z.number().min(1).max(most).describe(`${what}, rev/min, 1 to ${most}.`);

const span = (axis: string) =>
  z
    .tuple([z.number().min(-100_000).max(100_000), z.number().min(-100_000).max(100_000)])
    .refine(([low, high]) => low < high, { message: 'the first figure must be less than the second' })
    .describe(`Travel of ${axis}: least and greatest programmed position, in the card's units.`);

const template = (what: string) =>
  z
    .union([z.string().max(200), z.array(z.string().max(200)).min(1).max(20)])
    .superRefine((value, context) => {
      const fault = templateFault(value);
      if (fault !== undefined) context.addIssue({ code: 'custom', message: fault });
    })
    .describe(
      `${what} Words as this control wants them, with {rpm} {starts} {teeth} {sense} {helix} {hand} {lead} {ratio} {angle} ` +
        '{tool} {offset} {seconds} {milliseconds} {z} {feed} {program} {repeats} {target} where a figure goes; an array for several blocks; empty when not known.',
    );

const limits = z
  .strictObject({
    mainSpindleRpm: rpm('Greatest speed of the main spindle', 100_000).optional(),
    drivenToolRpm: rpm('Greatest speed of the driven tools', 200_000).optional(),
    syncHobRpm: rpm('Greatest hob speed in synchronous running', 100_000).optional(),
    x: span('X').optional(),
    y: span('Y').optional(),
    z: span('Z').optional(),
  })
  .describe('What the machine can reach. Blocks and programs are checked against it.');

const unitWord = (units: string) => z.string().regex(/^G\d{1,3}$/, { message: 'must be G and a number, such as G21' }).describe(`The word that sets ${units}, such as G2${units === 'inch' ? '0' : '1'}.`);

const chuck = z
  .strictObject({
    diameter: z.number().gt(0).max(10_000).describe("Outside diameter of the chuck with its jaws, in the card's units, above 0 to 10000."),
    z: z.number().min(-100_000).max(100_000).describe("Z of the foremost face of chuck and jaws, as programmed for work in that spindle, in the card's units, -100000 to 100000."),
  })
  .describe('What stands behind the work. Where it is given, the way of a hob is checked against it.');

const sign = (what: string) => z.union([z.literal(1), z.literal(-1)]).describe(`${what} 1 or -1.`);

const senses = z
  .strictObject({
    workRotation: sign('1: growing C turns the work right-handed about +Z (advancing a right-hand screw toward +Z).').optional(),
    hobSide: z.enum(['+X', '-X']).describe('The side of the work on which the hob stands.').optional(),
    toolRotation: sign('1: drivenStart turns the hob right-handed about +Y.').optional(),
    helixSign: sign('1: {helix}, {lead} and {hand} are plus for right-hand teeth; -1: minus for them. Left out: 1.').optional(),
  })
  .describe('Directions that no standard settles. They decide the sign of the work rotation.');

/** Everything is told from the face of the work, so that it is the same for every way to lay out a machine. */
const subSpindle = z
  .strictObject({
    zSense: sign('1: growing Z leaves the face of the work in the sub-spindle, as on the main spindle; -1: falling Z leaves it.').optional(),
    ySense: sign('1: to somebody who looks at that face with +X up, growing Y goes to the left, as on the main spindle; -1: to the right.').optional(),
    workRotation: sign('1: to somebody who looks at that face, growing C of the sub-spindle turns the work counter-clockwise (right-handed about the direction that leaves the face).').optional(),
    toolRotation: sign('1: to somebody who looks at that face with +X up, drivenStart turns the hob right-handed about the direction to the left; -1: left-handed. Left out: as one turret for both spindles does, where ySense is -1.').optional(),
    hobSide: z.enum(['+X', '-X']).describe('The side of the work in the sub-spindle on which the hob stands, as X is programmed. Left out: as senses.hobSide, where ySense is -1.').optional(),
    helixSign: sign('1: {helix}, {lead} and {hand} are plus for right-hand teeth of work in the sub-spindle; -1: minus for them. Left out: as on the main spindle, where C and Z count against each other as they do there.').optional(),
    maxRpm: rpm('Greatest speed of the sub-spindle', 100_000).optional(),
    travel: span('the sub-spindle along its axis').optional(),
    chuck: chuck.optional(),
  })
  .describe('The spindle that faces the main spindle. Leave it out where the machine has none.');

/** What each code does. The schema, its documentation and the explanation of words share these sentences. */
const codeTitles = {
  feedPerMinute: 'Feed per minute.',
  feedPerRevolution: 'Feed per revolution.',
  inverseTime: 'Inverse time feed: a block takes 1/F minutes.',
  absolute: 'Absolute dimensions.',
  incremental: 'Incremental dimensions.',
  syncOn: 'Starts synchronous running of hob and work.',
  syncOff: 'Ends synchronous running.',
  subSyncOn: 'Starts synchronous running of the hob and work in the sub-spindle. Left out: as syncOn.',
  subSyncOff: 'Ends synchronous running of the hob and work in the sub-spindle. Left out: as syncOff.',
  workAxisOn: 'Puts the main spindle under position control as the C axis.',
  workAxisOff: 'Gives the main spindle back to speed control.',
  workClamp: 'Clamps the work axis.',
  workUnclamp: 'Releases the work axis.',
  subStart: 'Starts the sub-spindle in its forward direction; {rpm} is its speed. Then M03, M04 and M05 are of the main spindle alone.',
  subReverse: 'Starts the sub-spindle the other way round.',
  subStop: 'Stops the sub-spindle.',
  subAxisOn: 'Puts the sub-spindle under position control as its C axis.',
  subAxisOff: 'Gives the sub-spindle back to speed control.',
  subClamp: 'Clamps the axis of the sub-spindle.',
  subUnclamp: 'Releases the axis of the sub-spindle.',
  mainChuckOpen: 'Opens the chuck of the main spindle.',
  mainChuckClose: 'Closes the chuck of the main spindle.',
  subChuckOpen: 'Opens the chuck of the sub-spindle.',
  subChuckClose: 'Closes the chuck of the sub-spindle.',
  spindleSyncOn: 'Couples both spindles at {rpm}; {angle} is C of the sub-spindle while the main spindle stands at C 0.',
  spindleSyncOff: 'Ends the coupling of both spindles.',
  subRapid: 'Moves the sub-spindle along its axis in rapid; {z} is the place.',
  subFeed: 'Moves the sub-spindle along its axis with {feed} a minute; {z} is the place.',
  drivenStart: 'Starts the driven tool.',
  drivenReverse: 'Starts the driven tool the other way round.',
  drivenStop: 'Stops the driven tool.',
  coolantOn: 'Coolant on.',
  coolantOff: 'Coolant off.',
  dwell: 'Dwell; {seconds} or {milliseconds} is its time. P of fixed cycles counts seconds all the same, as RS274/NGC says.',
  speedLimit: 'Upper limit of the spindle speed under constant surface speed; {rpm} is the limit.',
  subprogramStart: 'First words of a subprogram; {program} is its number. Only O or a colon before the number is followed when a program is read.',
  subprogramCall: 'Calls a subprogram; {program} is its number, {repeats} how often it runs.',
  subprogramReturn: 'Returns from a subprogram.',
  jump: 'Goes on at another block, {target}. It is pointed out and not followed: what comes after is read as if it did not stand there.',
} as const;

const codeSchemas = Object.fromEntries(Object.entries(codeTitles).map(([name, what]) => [name, template(what)])) as Record<keyof typeof codeTitles, ReturnType<typeof template>>;

const codes = z
  .strictObject(codeSchemas)
  .partial()
  .describe('How this control says it. What is left empty becomes a visible hole in a block, and an error.');

const subprograms = z
  .strictObject({
    place: z.literal('behindEnd').describe('"behindEnd": subprograms stand in the file of the program that calls them, behind its end.'),
    numbers: z
      .tuple([z.int().min(1).max(99_999_999), z.int().min(1).max(99_999_999)])
      .refine(([low, high]) => low <= high, { message: 'the first figure must not be more than the second' })
      .describe('First and last number that a new subprogram may have on this machine, 1 to 99999999. One that the program has or calls already is passed over.'),
    incrementalXOnDiameter: z.literal(true).describe('true: incremental X words count on the diameter, as X does. Leave it out where they do not, or where it is not known: then no block steps in X by increments.').optional(),
    mostRepeats: z.int().min(1).max(99_999).describe('Most repeats that one call may have, 1 to 99999. Left out: as many as a block needs.').optional(),
  })
  .describe('How blocks may use subprograms, beside codes.subprogramStart, codes.subprogramCall and codes.subprogramReturn. Leave it out where they may not: blocks are then written out.');

const shared = { name: z.string().min(1).max(80).describe('What the shop calls the unit.') };

const hobbingUnit = z.strictObject({
  kind: z.literal('hobbing'),
  ...shared,
  maxModule: z.number().gt(0).max(100).describe('Greatest normal module, mm, above 0 to 100.').optional(),
  maxHobDiameter: z.number().gt(0).max(1000).describe("Greatest outside diameter of the hob, in the card's units, above 0 to 1000.").optional(),
  maxHobLength: z.number().gt(0).max(1000).describe("Greatest length of the hob, in the card's units, above 0 to 1000.").optional(),
  ratio: z.number().gt(0).max(100).describe('Revolutions of the driven-tool drive for one revolution of the hob, above 0 to 100.').default(1),
  maxRpm: rpm('Greatest hob speed', 200_000).optional(),
  maxSetting: z.number().min(0).max(90).describe('Greatest swivel to either side, degrees, 0 to 90.').optional(),
});

const strokeUnit = z.strictObject({
  kind: z.literal('stroke'),
  ...shared,
  totalStroke: z.number().gt(0).max(2000).describe("Greatest stroke, in the card's units, above 0 to 2000.").optional(),
  leadIn: z.number().min(0).max(100).describe("Free travel before the cut, in the card's units, 0 to 100.").optional(),
  leadOut: z.number().min(0).max(100).describe("Free travel behind the cut, in the card's units, 0 to 100.").optional(),
  ratio: z.number().gt(0).max(100).describe('Strokes for one revolution of the driven-tool drive, above 0 to 100.').default(1),
  maxStrokesPerMinute: rpm('Greatest stroke rate (strokes a minute)', 100_000).optional(),
  maxInsertWidth: z.number().gt(0).max(200).describe("Widest insert, in the card's units, above 0 to 200.").optional(),
});

const highSpeedUnit = z.strictObject({
  kind: z.literal('highSpeed'),
  ...shared,
  rpm: z
    .tuple([z.number().min(1).max(1_000_000), z.number().min(1).max(1_000_000)])
    .refine(([low, high]) => low < high, { message: 'the first figure must be less than the second' })
    .describe('Least and greatest speed, rev/min, 1 to 1000000.')
    .optional(),
  ratio: z.number().gt(0).max(100).describe('Revolutions of the driven-tool drive for one revolution of the cutter, above 0 to 100.').default(1),
  runOut: z.number().min(0).max(1).describe("Total indicated run-out at the tool, in the card's units, 0 to 1.").optional(),
});

export const machineCardSchema = z
  .strictObject({
    $schema: z.string().optional(),
    name: z.string().min(1).max(120).describe('What the shop calls the machine.'),
    units: z.enum(['mm', 'inch']).describe("Units of the card's own lengths and of programs that name none.").default('mm'),
    diameterProgramming: z.boolean().describe('X words are diameters.').default(true),
    xFeedOnDiameter: z.boolean().describe('F of a pure X move counts on the diameter, twice the true speed.').default(false),
    comment: z.enum(['parentheses', 'semicolon']).describe('How comments are written.').default('parentheses'),
    decimals: z.int().min(0).max(6).describe('Decimals of a length word, 0 to 6.').default(3),
    angleDecimals: z.int().min(0).max(6).describe('Decimals of an angle word, 0 to 6.').default(3),
    maxLineLength: z.int().min(30).max(1000).describe('Longest line that the control reads, characters, 30 to 1000. Left out: programs may have 256, as RS274/NGC says, and blocks are written within 80.').optional(),
    sequenceNumbers: z
      .strictObject({
        start: z.int().min(0).max(99999).describe('First sequence number where the program has none, 0 to 99999.'),
        step: z.int().min(1).max(1000).describe('Step from block to block, 1 to 1000.'),
      })
      .describe('Sequence numbers of inserted blocks; leave it out to follow the program, or to write none.')
      .optional(),
    limits: limits.default({}),
    chuck: chuck.optional(),
    rapids: z
      .strictObject({
        x: z.number().gt(0).max(1_000_000).describe('Rapid speed of X, card units a minute.').optional(),
        y: z.number().gt(0).max(1_000_000).describe('Rapid speed of Y, card units a minute.').optional(),
        z: z.number().gt(0).max(1_000_000).describe('Rapid speed of Z, card units a minute.').optional(),
        c: z.number().gt(0).max(10_000_000).describe('Rapid speed of C, degrees a minute.').optional(),
      })
      .describe('Rapid speeds, for times. Without them a rapid move has a length but no time.')
      .optional(),
    plane: z
      .union([z.literal(17), z.literal(18), z.literal(19)])
      .describe('The plane in force at the start of a program: 17 (XY), 18 (ZX) or 19 (YZ). Lathes usually start in 18. Left out: 17, as RS274/NGC says.')
      .optional(),
    feedMode: z
      .enum(['perMinute', 'perRevolution'])
      .describe('The feed mode in force at the start of a program. Left out: per minute, as RS274/NGC says after a program end.')
      .optional(),
    cycleReturn: z
      .enum(['initial', 'retract'])
      .describe('The level to which fixed cycles return at the start of a program: "initial", that before the cycle (G98), or "retract", the R word (G99). Leave it out when not known.')
      .optional(),
    cycleAxisInZX: z
      .enum(['Y', 'Z'])
      .describe('The axis along which fixed cycles (G81 to G89) drill while the plane is ZX (G18): "Y", which stands on the plane, as RS274/NGC says, or "Z". Left out: "Y", and a cycle that would fit along Z is pointed out.')
      .optional(),
    cyclesTurnC: z
      .literal(true)
      .describe('true: a C word on a line of a fixed cycle turns the work to the hole, in rapid before it is drilled. Leave it out when not known: RS274/NGC lets cycles turn nothing.')
      .optional(),
    repeatsLeftOut: z
      .literal('once')
      .describe('"once": a call without the word that holds {repeats} in codes.subprogramCall runs its subprogram once. Leave it out when not known: such a call is then not followed. Where codes.subprogramCall has no {repeats}, every call runs once.')
      .optional(),
    unitWords: z
      .strictObject({ inch: unitWord('inch'), mm: unitWord('millimetres') })
      .refine(({ inch, mm }) => Number(inch.slice(1)) !== Number(mm.slice(1)), { message: 'inch and mm must be two different words' })
      .describe('The words that set the units of a program. Left out: G20 and G70 for inch, G21 and G71 for millimetres, by RS274/NGC and EIA RS-274-D. Where the card gives them, all others of these set nothing: on many lathes G70 and G71 mean something else.')
      .optional(),
    toolChange: z.enum(['T', 'M06']).describe('The word that changes the tool: T itself, as on a turret, or M06 after it.').default('T'),
    toolOffsetDigits: z
      .int()
      .min(0)
      .max(4)
      .describe('How many of the last digits of a T word are the number of the offset, 0 to 4: with 2, T0304 is tool 3 with offset 4. 0: the whole number is the tool.')
      .default(0),
    fixedFormat: z
      .strictObject({
        letters: z.string().regex(/^[A-FH-LP-RU-Z]+$/, { message: 'must be letters of numbers that may have a point, such as "XZIKR"; not G, M, N, O, S, T' }).describe('The letters whose numbers have an implied point, such as "XZIKR".'),
        integerDigits: z.int().min(1).max(8).describe('Digits before the implied point, 1 to 8.'),
        fractionDigits: z.int().min(0).max(6).describe('Digits behind the implied point, 0 to 6.'),
        suppressedZeros: z.enum(['leading', 'trailing']).describe('Which zeros may be left out.'),
      })
      .describe('How numbers without a decimal point are read, where the control implies one: with 4 and 3 digits and leading zeros left out, X25000 is 25. Numbers with a point are read as they stand.')
      .optional(),
    incrementalAxes: z
      .record(z.string().regex(/^[A-Z]$/), z.string().regex(/^[A-Z]$/))
      .describe('Letters that mean an incremental move of another axis, such as { "U": "X", "W": "Z" }.')
      .default({}),
    senses: senses.default({}),
    subSpindle: subSpindle.optional(),
    codes: codes.default({}),
    subprograms: subprograms.optional(),
    straightLead: z
      .number()
      .min(-100_000_000)
      .max(100_000_000)
      .describe('What {lead} is for straight teeth, which have none, -100000000 to 100000000. Leave it out when not known.')
      .optional(),
    differentialByWorkAxis: z
      .enum(['absolute', 'incremental'])
      .describe(
        'A C word beside Z turns the work on top of synchronous running, so it can make the helix where codes.syncOn has neither {helix} nor {lead}. ' +
          '"absolute": C keeps counting from where it stood, without the synchronous turns; "incremental": the letter that incrementalAxes gives for C. Leave it out when the control has no such thing.',
      )
      .optional(),
    meanings: z
      .record(z.string().regex(/^[A-Z]\d{1,4}(\.\d)?$/, { message: 'must be a letter and a number, such as M203' }), z.string().max(200))
      .describe('What words of this machine mean, shown on hover: "M203": "driven tool forward".')
      .default({}),
    tools: z
      .record(
        z.string().regex(/^\d{1,8}$/, { message: 'must be a number, such as 5' }),
        z.strictObject({
          diameter: z
            .number()
            .min(-1000)
            .max(1000)
            .describe(
              "Diameter for tool radius compensation, in the card's units, -1000 to 1000; of a turning tool twice its nose radius. " +
                'Below 0 the tool runs on the other side: for programs of the centre of a nominal tool, where the figure is what the real tool has more.',
            ),
        }),
      )
      .describe(
        'Tools by the number in the D word, else by that of the tool in use: { "5": { "diameter": 6 } }. Moves under G41 and G42 are then those of the centre of the tool; ' +
          'programmed places must be of that centre while compensation is off. Without a diameter the programmed path stays.',
      )
      .default({}),
    toolUnits: z.array(z.discriminatedUnion('kind', [hobbingUnit, strokeUnit, highSpeedUnit])).max(100).describe('The driven units that the machine has.').default([]),
  })
  .describe('Blockwright machine card: what one machine can do and how its control says it.');

export type MachineCard = z.infer<typeof machineCardSchema>;
export type CodeName = keyof MachineCard['codes'];
export type ToolUnit = MachineCard['toolUnits'][number];
export type ToolUnitKind = ToolUnit['kind'];

/** What a code of the card does, in one sentence; undefined for a name that the card does not have. */
export function codeTitle(name: string): string | undefined {
  return Object.hasOwn(codeTitles, name) ? codeTitles[name as CodeName] : undefined;
}

/** The key of the card that would fill a hole of this name; undefined where no key would, because the parameters give the figure. */
export function keyOfHole(name: string): string | undefined {
  if (name === 'sense') return 'senses.workRotation';
  if (name === 'lead') return 'straightLead';
  return Object.hasOwn(codes.shape, name) ? `codes.${name}` : undefined;
}

/** The first unit of a kind, as the card lists them. */
export function toolUnit<K extends ToolUnitKind>(card: MachineCard, kind: K): Extract<ToolUnit, { kind: K }> | undefined {
  return card.toolUnits.find((unit): unit is Extract<ToolUnit, { kind: K }> => unit.kind === kind);
}
