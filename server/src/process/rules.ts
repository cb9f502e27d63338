/**
 * The table of everything that notes, parameters and machine cards can be
 * objected to. Settings and documentation derive from it, together with the
 * program engine's own table.
 */
export const processRules = {
  'unknown-parameter': { severity: 'error', summary: 'A name in a process note that the process does not have.', source: 'process note' },
  'missing-parameter': { severity: 'error', summary: 'A parameter that the process cannot do without.', source: 'process note' },
  'bad-value': { severity: 'error', summary: 'A value outside its allowed range.', source: 'process note' },
  'parameter-twice': { severity: 'error', summary: 'A parameter stands twice in one note; the first counts.', source: 'process note' },
  'note-syntax': { severity: 'error', summary: 'Text in a process note that is not NAME=VALUE.', source: 'process note' },
  'note-open': { severity: 'error', summary: 'A process note without its closing comment, or the other way round.', source: 'process note' },
  'note-name': { severity: 'warning', summary: 'A comment that looks like a process note with a misspelt name.', source: 'process note' },
  'block-place': { severity: 'warning', summary: 'A block where no control runs it: in front of the program or behind its end.', source: 'NISTIR 6556 §3.1, §3.6.1' },
  'machine-limit': { severity: 'error', summary: 'A value beyond what the machine card allows.', source: 'machine card' },
  'hole': { severity: 'error', summary: 'A place where the machine card gave no word.', source: 'own rule: nothing is guessed' },
  'no-differential': { severity: 'error', summary: 'A helical gear on a machine whose synchronous word has no helix.', source: 'machine card' },
  'unstated-sense': { severity: 'warning', summary: 'A direction that the machine card does not state.', source: 'machine card' },
  'line-too-long': { severity: 'error', summary: 'A line longer than the machine card allows.', source: 'machine card' },
  'feed-marks': { severity: 'warning', summary: 'Feed marks deeper than the flank tolerance class allows.', source: 'ISO 1328-1:2013 (from memory)' },
  'generating-marks': { severity: 'warning', summary: 'Generating marks deeper than the flank tolerance class allows.', source: 'ISO 1328-1:2013 (from memory)' },
  'common-factor': { severity: 'warning', summary: 'Hob starts and teeth with a common factor.', source: 'rule of practice, from memory' },
  'hob-too-short': { severity: 'error', summary: 'A hob whose ends come inside the zone that generates the flanks.', source: 'derived' },
  'hob-position': { severity: 'warning', summary: 'A hob that is too short, or shifted too far, for entry, generating zone and margins.', source: 'technical articles on hob position' },
  'hob-room': { severity: 'error', summary: 'A shoulder, a collar or the chuck in the way of the hob.', source: 'derived' },
  'undercut': { severity: 'warning', summary: 'A tooth whose foot the hob undercuts.', source: 'involute geometry' },
  'thin-tip': { severity: 'warning', summary: 'A tooth thinner at its tip than usual.', source: 'usual limit, from memory' },
  'no-figure': { severity: 'information', summary: 'A figure that these parameters do not have.', source: 'own rule' },
  'narrow-relief': { severity: 'warning', summary: 'A relief groove with little room behind the stroke.', source: 'usual room, from memory' },
  'text-off-face': { severity: 'error', summary: 'A text that does not lie on its face.', source: 'derived' },
  'phase-not-held': { severity: 'warning', summary: 'Coupled spindles whose angle to each other the machine card cannot say.', source: 'machine card' },
  'tooth-not-cutting': { severity: 'warning', summary: 'Run-out as large as the chip load.', source: 'derived' },
  'too-many-strokes': { severity: 'error', summary: 'A static cut of more strokes than anybody could check.', source: 'own rule' },
  'flatness': { severity: 'warning', summary: 'A flatness that the insert does not keep where it stands a little aside.', source: 'derived, for an assumed 0.1 degree' },
  'written-out': { severity: 'information', summary: 'A block that is written out although a subprogram is asked for, or the machine has subprograms.', source: 'machine card' },
  'subprogram-missing': { severity: 'error', summary: 'The subprogram of a block is not in the program, or its number stands there twice.', source: 'process note' },
  'subprogram-open': { severity: 'error', summary: 'The subprogram of a block does not return.', source: 'process note' },
  'compensation-in-force': { severity: 'error', summary: 'Cutter compensation in force where a block goes in.', source: 'ISO 6983-1 (G40 to G42)' },
  'spindle-turning': { severity: 'error', summary: 'A block that puts the work spindle under position control while it turns.', source: 'own rule' },
  'surface-speed-in-force': { severity: 'warning', summary: 'Constant surface speed in force where a block gives a speed in revolutions a minute.', source: 'ISO 6983-1 (G96, G97)' },
  'zero-word': { severity: 'error', summary: 'A feed or speed that comes to nothing with the decimals of its word.', source: 'derived' },
  'usual-range': { severity: 'information', summary: 'A speed outside what is usual for the material.', source: 'cutting data of the trade library, each with its standing' },
  'no-free-travel': { severity: 'warning', summary: 'A stroke or a rapid that begins or ends at the very edge of the cut.', source: 'common practice, no source' },
  'drift': { severity: 'error', summary: 'A word of a block that its note does not give, and that is not marked as kept; another feed or speed is a warning.', source: 'process note' },
  'stale-comment': { severity: 'warning', summary: 'The note gives the operator another comment than the block holds.', source: 'process note' },
  'card': { severity: 'error', summary: 'A machine card that cannot be used; the last good one stays in use.', source: 'machine card' },
} as const satisfies Record<string, { severity: 'error' | 'warning' | 'information'; summary: string; source: string }>;

export type ProcessRuleId = keyof typeof processRules;
