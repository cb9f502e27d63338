/**
 * How a block cuts slot after slot with a driven unit or with a tool that
 * stands, written out or through a subprogram.
 *
 * It knows no section of a slot: radii, passes and angles come in a plan.
 */
import { BOX_CYCLE_DEFAULTS, type KeywayPass } from '../trade/keyway.ts';
import { shown } from '../trade/quantity.ts';
import type { Composition, Problem, Setting } from './process.ts';
import { clearOfFace, entryGap, type SlotPlan, type StrokeValues } from './slot-strokes.ts';
import { subprogramForm, type SubprogramForm } from './slot-subprogram.ts';
import { markOfNote } from './subprogram-lines.ts';
import { strokeDriveSpeeds } from './unit-speeds.ts';
import { angleWord, BlockWriter, caution, decimal, feedWord, lengthWord, speedFigure, unitName, xWord } from './words.ts';
import { workCode, zWord } from './work-side.ts';

/** A static cut that writes out more strokes than this is a slip of the keys, or a block that nobody can check. */
const mostWrittenStrokes = 2000;

/** More strokes than this are a slip of the keys even where a subprogram makes them. */
const mostStrokes = 20_000;

/** What a block says of the slot itself. */
export interface AboutSlots {
  /** What the operator must know of it. */
  comments: readonly string[];
  /** The keyword of the process. */
  keyword: string;
}

/** The whole block of one or several equal slots. */
export function composeSlots(values: StrokeValues, plan: SlotPlan, about: AboutSlots, setting: Setting): Composition {
  const block = new SlotBlock(values, plan, setting);
  const tooMany = strokeLimit(values, plan, block.form);
  if (tooMany.length > 0) return { lines: [], problems: tooMany };
  block.write(about);
  const { writer, called, form } = block;
  const subprogram = form ? { subprogram: { number: values.PROGRAM ?? NaN, lines: called.lines } } : {};
  return { lines: writer.lines, ...subprogram, problems: [...writer.problems, ...called.problems] };
}

/** One block in the making: all its parts need the same things. */
class SlotBlock {
  readonly writer: BlockWriter;
  /** The lines of the subprogram; none where the block is written out. */
  readonly called: BlockWriter;
  readonly form: SubprogramForm | undefined;
  private readonly retract: number;
  private readonly liftOff: number;

  constructor(private readonly values: StrokeValues, private readonly plan: SlotPlan, private readonly setting: Setting) {
    const governing = { feed: values.METHOD === 'DRIVEN' ? 'FEED' : 'SPEED', speed: 'RPM' };
    this.writer = new BlockWriter(setting, governing);
    this.called = new BlockWriter(setting, governing);
    this.form = subprogramForm(values, plan, setting);
    this.liftOff = plan.box?.liftOff ?? BOX_CYCLE_DEFAULTS[setting.units].liftOff;
    this.retract = Math.min(...plan.passes.map((pass) => this.startOf(pass)));
  }

  write({ comments, keyword }: AboutSlots): void {
    const { writer, values, setting } = this;
    this.comments(comments);
    writer.takeModes(values.SPINDLE);
    this.approach();
    writer.code(workCode(values.SPINDLE, 'axisOn'));
    if (values.METHOD === 'DRIVEN') writer.code('drivenStart', { rpm: speedFigure(values.RPM ?? NaN, strokeDriveSpeeds(setting.card, values.RATIO)) });
    writer.coolant('coolantOn');
    this.slots();
    writer.coolant('coolantOff');
    if (values.METHOD === 'DRIVEN') writer.code('drivenStop');
    this.leave();
    writer.code(workCode(values.SPINDLE, 'unclamp'));
    writer.code(workCode(values.SPINDLE, 'axisOff'));
    writer.restoreModes();
    if (this.form) this.subprogram(this.form, keyword);
  }

  /** In front of the face first, wherever X stands: an X word on the way would lead through the wall of the work. */
  private approach(): void {
    const { writer, values, plan, setting } = this;
    const clear = clearOfFace(values, plan, setting.units);
    writer.block('G00', this.zWord(clear));
    writer.block('G00', xWord(this.retract, setting), lengthWord('Y', 0, setting));
    if (clear !== plan.strokeStartZOffset) writer.block('G00', this.zWord(plan.strokeStartZOffset));
  }

  /** Out along Z at the end too: what follows may move X first. */
  private leave(): void {
    const { writer, values, plan, setting } = this;
    if (plan.passes.length > 1) writer.block('G00', lengthWord('Y', 0, setting));
    const clear = clearOfFace(values, plan, setting.units);
    if (clear !== plan.strokeStartZOffset) writer.block('G00', this.zWord(clear));
  }

  private comments(about: readonly string[]): void {
    const { writer, values } = this;
    caution.forEach((line) => writer.comment(line));
    writer.comment('Start from a clear place in front of the work: Z moves first');
    if (values.SPINDLE === 'SUB') writer.comment('Work in the sub-spindle: the tool must point to it');
    if (values.METHOD === 'DRIVEN') this.drivenComments();
    else writer.comment('Static tool: Z and X are of the insert edge');
    about.forEach((line) => writer.comment(line));
    if (values.RELIEF > 0) this.reliefComment();
    if (this.form) writer.comment(`Calls subprogram ${values.PROGRAM ?? ''}, which stands behind the end of the program`);
  }

  private drivenComments(): void {
    const { writer, values, plan, setting } = this;
    const length = (value: number) => decimal(value, setting.card.decimals);
    const unit = unitName(setting.card, 'stroke');
    if (unit !== '') writer.comment(`Unit: ${unit}`);
    writer.comment(`Set stroke ${length(plan.strokeLength)}: lead-in ${length(values['LEAD-IN'])}, lead-out ${length(values['LEAD-OUT'])}`);
    writer.comment('Z is of the insert at the outer end of its stroke, X of its edge');
    writer.comment('X moves a whole stroke before the face, wherever the insert stands');
    writer.comment(`${shown(plan.strokesPerMinute, 1)} strokes/min, ${shown(plan.secondsPerStroke, 4)} s a stroke`);
  }

  private reliefComment(): void {
    const { writer, values, plan, setting } = this;
    const [near, far] = [this.zWord(-values.LENGTH), this.zWord(-values.LENGTH - values.RELIEF)];
    writer.comment(`Blind: relief groove from ${near} to ${far}, deeper than ${xWord(plan.floorRadius, setting)}, must be there`);
  }

  private slots(): void {
    for (const angle of this.plan.anglesDegrees) {
      this.index(angle);
      if (this.form?.kind === 'slot') this.call(1);
      else this.slot(this.writer);
    }
  }

  private index(angle: number): void {
    const { writer, values, setting } = this;
    writer.code(workCode(values.SPINDLE, 'unclamp'));
    writer.block('G00', angleWord('C', angle, setting));
    writer.code(workCode(values.SPINDLE, 'clamp'));
  }

  /** All passes of one slot. */
  private slot(writer: BlockWriter): void {
    const { plan, setting } = this;
    for (const pass of plan.passes) {
      if (plan.passes.length > 1) writer.block('G00', lengthWord('Y', pass.offsetY, setting));
      const start = xWord(this.startOf(pass), setting);
      if (start !== xWord(this.retract, setting)) writer.block('G00', start);
      if (this.values.METHOD === 'DRIVEN') this.feedIn(writer, pass);
      else this.strokes(writer, pass);
      writer.block('G00', xWord(this.retract, setting));
    }
  }

  /** Where X stands before the first stroke of a pass. */
  private startOf(pass: KeywayPass): number {
    const start = this.values.METHOD === 'DRIVEN' ? pass.startRadius - entryGap[this.setting.units] : this.contactInX(pass) - this.liftOff;
    return Math.max(0, start);
  }

  /** The unit strokes on its own; the block feeds X. */
  private feedIn(writer: BlockWriter, pass: KeywayPass): void {
    const { plan, setting, values } = this;
    writer.block('G01', xWord(pass.floorRadius, setting), feedWord(plan.feedPerMinute, setting));
    if (values['SPARK-OUT'] > 0) writer.code('dwell', { seconds: decimal(plan.dwellSecondsForSparkOut, 3) });
  }

  /** Strokes that are alike may go through the subprogram; the last one and those without feed end on the floor itself. */
  private strokes(writer: BlockWriter, pass: KeywayPass): void {
    const alike = this.form?.kind === 'stroke' ? this.likeStrokes(pass) : 0;
    if (alike > 0) this.call(alike);
    this.strokeRadii(pass).slice(alike).forEach((radius) => this.strokeOnce(writer, radius));
  }

  /** Strokes of a whole feed that end before the floor. */
  private likeStrokes(pass: KeywayPass): number {
    const before = Math.floor((pass.floorRadius - this.contactInX(pass)) / this.values.FEED + 1e-9);
    return Math.min(pass.feedStrokes - 1, before);
  }

  /** In with X before the face, cut along Z, lift off, back along Z: the corners of a box. */
  private strokeOnce(writer: BlockWriter, radius: number): void {
    const { plan, setting } = this;
    writer.block('G00', xWord(radius, setting));
    writer.block('G01', this.zWord(plan.strokeEndZOffset), this.cutFeed());
    writer.block('G00', xWord(Math.max(0, radius - this.liftOff), setting));
    writer.block('G00', this.zWord(plan.strokeStartZOffset));
  }

  /** The radius of every stroke of a pass: feed by feed from the first contact to the floor, then the spark-out strokes. */
  private strokeRadii(pass: KeywayPass): number[] {
    const contact = this.contactInX(pass);
    const reached = (index: number) => (index === pass.feedStrokes - 1 ? Infinity : contact + (index + 1) * this.values.FEED);
    const feeding = Array.from({ length: pass.feedStrokes }, (_, index) => Math.min(pass.floorRadius, reached(index)));
    return [...feeding, ...Array.from({ length: this.values['SPARK-OUT'] }, () => pass.floorRadius)];
  }

  /** The first contact as an X word can say it, so that steps from there come to the same places as the words of each stroke. */
  private contactInX({ contactRadius }: KeywayPass): number {
    return Number(xWord(contactRadius, this.setting).slice(1)) / (this.setting.card.diameterProgramming ? 2 : 1);
  }

  /** One call, or several where a call of this machine does not repeat so often. */
  private call(repeats: number): void {
    const most = this.setting.card.subprograms?.mostRepeats ?? Infinity;
    const program = String(this.values.PROGRAM);
    for (let left = repeats; left > 0; left -= most) this.writer.code('subprogramCall', { program, repeats: String(Math.min(left, most)) });
  }

  private subprogram(form: SubprogramForm, keyword: string): void {
    const { called, values } = this;
    const program = String(values.PROGRAM);
    called.code('subprogramStart', { program });
    called.comment(`One ${form.kind} of the ${keyword} block with ${markOfNote(Number(program))}`);
    if (form.kind === 'stroke') this.strokeInSteps(form);
    else this.slot(called);
    called.code('subprogramReturn');
  }

  /** The corners of the box as steps. Those of Z are the differences of the words, so that none adds up. */
  private strokeInSteps({ steps }: Extract<SubprogramForm, { kind: 'stroke' }>): void {
    const { called, plan, setting, liftOff } = this;
    const step = (radius: number) => steps.x + xWord(radius, setting).slice(1);
    const [start, end] = [plan.strokeStartZOffset, plan.strokeEndZOffset].map((offset) => Number(this.zWord(offset).slice(1)));
    const way = (end ?? NaN) - (start ?? NaN);
    if (steps.before) called.code(steps.before);
    called.block('G00', step(liftOff + this.values.FEED));
    called.block('G01', lengthWord(steps.z, way, setting), this.cutFeed());
    called.block('G00', step(-liftOff));
    called.block('G00', lengthWord(steps.z, -way, setting));
    if (steps.behind) called.code(steps.behind);
  }

  private cutFeed(): string {
    return feedWord(this.plan.box?.cutFeed ?? NaN, this.setting);
  }

  private zWord(offset: number): string {
    return zWord(this.values['FACE-Z'], offset, this.values.SPINDLE, this.setting);
  }
}

/** How many strokes of a static cut stand in the program. */
function writtenStrokes({ passes, anglesDegrees }: SlotPlan, form: SubprogramForm | undefined): number {
  const ofSlot = passes.reduce((sum, { strokes, feedStrokes }) => sum + strokes - (form?.kind === 'stroke' ? feedStrokes - 1 : 0), 0);
  return ofSlot * (form?.kind === 'slot' ? 1 : anglesDegrees.length);
}

function strokeLimit(values: StrokeValues, plan: SlotPlan, form: SubprogramForm | undefined): Problem[] {
  const written = writtenStrokes(plan, form);
  if (values.METHOD === 'DRIVEN' || (written <= mostWrittenStrokes && plan.totalStrokes <= mostStrokes)) return [];
  const most = written > mostWrittenStrokes ? `writes ${written} of them out, at most ${mostWrittenStrokes} are allowed` : `at most ${mostStrokes} are allowed`;
  return [{ parameter: 'FEED', rule: 'too-many-strokes', severity: 'error', message: `FEED: ${shown(values.FEED)} makes ${plan.totalStrokes} strokes; the block ${most}.` }];
}
