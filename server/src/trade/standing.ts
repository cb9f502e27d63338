/**
 * How far a figure can be trusted, in the words that the catalogue and the
 * checks use. Knows nothing of any single formula or table.
 */

export type Standing =
  /** Read in a published source that is named beside it. */
  | 'seen in source'
  /** Computed here and found equal to a published table. */
  | 'recomputed published value'
  /** Follows from plain geometry or kinematics; checkable by hand. */
  | 'derived'
  /** Written down from memory; a default that the user can change. */
  | 'from memory'
  /** What shops do; no published source is known. */
  | 'common practice';
