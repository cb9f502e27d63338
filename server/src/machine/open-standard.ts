/**
 * The card that is in use where the user has none. It says only what the open
 * definitions say (ISO 6983-1 and its national counterparts for G90, G91, G93 to G95,
 * M08 to M11; the NIST RS274/NGC report for the dwell word); everything that
 * they leave to the machine builder is left empty here.
 */
import { machineCardSchema, type MachineCard } from './card.ts';

export const openStandardCard: MachineCard = machineCardSchema.parse({
  name: 'Open standard words only',
  codes: {
    feedPerMinute: 'G94',
    feedPerRevolution: 'G95',
    inverseTime: 'G93',
    absolute: 'G90',
    incremental: 'G91',
    workClamp: 'M10',
    workUnclamp: 'M11',
    coolantOn: 'M08',
    coolantOff: 'M09',
    dwell: 'G04 P{seconds}',
  },
});
