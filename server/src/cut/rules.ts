/**
 * Everything that a proof can object to. Settings and documentation derive from
 * this table as they do from those of the program engine and the processes.
 */
export const cutRules = {
  'cut-nothing': { severity: 'error', summary: 'The hob never reaches the blank.' },
  'cut-unsynchronised': { severity: 'error', summary: 'The hob cuts while hob and work are not coupled.' },
  'cut-ratio': { severity: 'error', summary: 'Hob and work are coupled in a ratio that is not starts to teeth.' },
  'cut-direction': { severity: 'error', summary: 'The work turns against the thread of the hob: the teeth are milled away.' },
  'cut-differential': { severity: 'error', summary: 'The extra turn of the work for helical teeth is missing, wrong, or present for straight ones.' },
  'cut-teeth': { severity: 'error', summary: 'The cut leaves another number of teeth than wanted, or none.' },
  'cut-hand': { severity: 'error', summary: 'The helix of the cut teeth has the other hand.' },
  'cut-helix': { severity: 'error', summary: 'The helix angle of the cut teeth is not the wanted one.' },
  'cut-depth': { severity: 'error', summary: 'The teeth are cut too deep or not deep enough.' },
  'cut-span': { severity: 'error', summary: 'The teeth are too thick or too thin over the span.' },
  'cut-profile': { severity: 'error', summary: 'The flank departs from the involute by more than the marks explain.' },
  'cut-travel': { severity: 'error', summary: 'The hob does not travel far enough to finish an end of the teeth.' },
  'cut-rapid': { severity: 'error', summary: 'A rapid move cuts into the work.' },
  'cut-index': { severity: 'error', summary: 'The work is indexed, or the tool changed, while hob and work are coupled.' },
  'cut-feed': { severity: 'error', summary: 'The feed for one revolution of the work is not the one that the note asks for.' },
  'cut-entry': { severity: 'warning', summary: 'The hob goes in radially where the note asks for axial entry, or the other way round.' },
  'cut-method': { severity: 'warning', summary: 'The hob climbs where the note asks for conventional hobbing, or the other way round.' },
  'cut-standing-hob': { severity: 'error', summary: 'The hob is moved through the blank without turning.' },
  'cut-collision': { severity: 'error', summary: 'The hob runs into something beside the teeth.' },
  'work-clamped': { severity: 'error', summary: 'The work is turned while its axis is clamped.' },
  'work-unclamped': { severity: 'error', summary: 'Strokes cut while the work axis stands and is not clamped.' },
  'engrave-unclamped': { severity: 'warning', summary: 'The face is engraved while the work axis stands and is not clamped.' },
  'work-axis-off': { severity: 'error', summary: 'The work is cut or turned by C while its spindle is not under position control.' },
  'left-turning': { severity: 'error', summary: 'The driven tool still turns at the end of the block.' },
  'left-coupled': { severity: 'error', summary: 'Hob and work still run coupled at the end of the block.' },
  'left-clamped': { severity: 'error', summary: 'The work axis is still clamped at the end of the block.' },
  'left-as-axis': { severity: 'warning', summary: 'The work spindle is still under position control at the end of the block.' },
  'slot-nothing': { severity: 'error', summary: 'The insert never reaches the bore.' },
  'slot-count': { severity: 'error', summary: 'Another number of slots than wanted.' },
  'slot-width': { severity: 'error', summary: 'The slot is wider or narrower than its limits.' },
  'slot-depth': { severity: 'error', summary: 'The slot is not as deep as wanted.' },
  'slot-length': { severity: 'error', summary: 'The slot does not have its full depth over its whole length.' },
  'slot-position': { severity: 'error', summary: 'A slot lies in another direction than wanted.' },
  'slot-centre': { severity: 'error', summary: 'A slot lies beside the plane through the work axis.' },
  'slot-bite': { severity: 'error', summary: 'A stroke takes more than the feed: the infeed starts inside the material.' },
  'slot-floor': { severity: 'warning', summary: 'The bottom of the slot is not flat, or rises from end to end.' },
  'slot-across-flats': { severity: 'error', summary: 'Two opposite flats are farther apart, or nearer, than wanted.' },
  'slot-flatness': { severity: 'error', summary: 'A flat, or the floor of a slot, departs from a plane by more than is stated.' },
  'slot-flanks': { severity: 'error', summary: 'The flanks of a groove include another angle than wanted.' },
  'slot-not-a-stroke': { severity: 'error', summary: 'The insert is moved through the material otherwise than by a stroke.' },
  'slot-relief': { severity: 'error', summary: 'A stroke runs into the wall behind the relief groove.' },
  'slot-not-stroking': { severity: 'error', summary: 'The slide feeds into the work while the stroke unit stands.' },
  'engrave-nothing': { severity: 'error', summary: 'The engraving cutter never reaches the surface.' },
  'engrave-rapid': { severity: 'error', summary: 'A rapid move enters the work, or goes along in it.' },
  'engrave-standing': { severity: 'error', summary: 'The engraving cutter feeds into the work without turning.' },
  'engrave-depth': { severity: 'error', summary: 'The engraving is not as deep as wanted.' },
  'engrave-mirrored': { severity: 'error', summary: 'The engraved text is mirrored or stands on its head.' },
  'engrave-size': { severity: 'error', summary: 'The engraved letters are higher, lower, wider or narrower than wanted.' },
  'engrave-place': { severity: 'error', summary: 'The engraved text stands in another place than wanted.' },
  'engrave-letters': { severity: 'error', summary: 'Letters of the text are missing or not whole.' },
  'engrave-stray': { severity: 'error', summary: 'The cutter cuts where the text has no stroke.' },
  'handover-uncoupled': { severity: 'error', summary: 'The part changes hands while the spindles are not coupled.' },
  'handover-phase': { severity: 'error', summary: 'The spindles are coupled in another phase than the clocking asks for.' },
  'handover-grip': { severity: 'error', summary: 'The sub-spindle grips in another place than wanted, with closed jaws, or not at all.' },
  'handover-held': { severity: 'error', summary: 'The sub-spindle moves while both chucks hold the part, or the main chuck is never opened.' },
  'handover-dropped': { severity: 'error', summary: 'A chuck opens while nothing else holds the part.' },
  'handover-retract': { severity: 'error', summary: 'The sub-spindle does not end at its retract place.' },
  'handover-turning': { severity: 'warning', summary: 'Spindles that the coupling turned are not stopped by the end of the hand-over.' },
  'handover-rapid': { severity: 'error', summary: 'The sub-spindle goes over the part in rapid, or draws it out of the main chuck in rapid.' },
} as const satisfies Record<string, { severity: 'error' | 'warning' | 'information'; summary: string }>;

export type CutRuleId = keyof typeof cutRules;

/** What a proof objects to, and the 0-based line that causes it. */
export interface CutFinding {
  line: number;
  rule: CutRuleId;
  severity: 'error' | 'warning' | 'information';
  message: string;
}

export function cutFinding(line: number, rule: CutRuleId, message: string): CutFinding {
  return { line, rule, severity: cutRules[rule].severity, message };
}

/** A figure taken from the cut shape, beside what was wanted. */
export interface CutFigure {
  id: string;
  name: string;
  value: number;
  /** The cut itself counts in mm; whoever shows the figures of an inch program converts them. */
  unit: 'mm' | 'inch' | 'deg' | 'teeth' | '';
  wanted?: number;
}

/** What proving one stretch of a program comes to. */
export interface StretchProof {
  findings: CutFinding[];
  figures: CutFigure[];
  /** What the program does not say and the proof took for granted, in full sentences. */
  assumptions: string[];
}
