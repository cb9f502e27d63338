import { RemovedArcs, wrapped } from './arcs.ts';

/**
 * One transverse section of the blank while it is cut: on each of several
 * circles, which arcs are gone, and how deep the cut went.
 *
 * The section may be looked at all round or only inside angular windows, which
 * is what makes a fine section affordable. It knows neither hob nor program.
 */

/** An angular range, in radians. */
export interface AngularWindow {
  middle: number;
  half: number;
}

export interface SectionPlan {
  z: number;
  /** Radii of the circles on which the cut is followed, rising. */
  radii: readonly number[];
  /** Without windows the section is followed all round. */
  windows?: readonly AngularWindow[];
}

export class GearSection {
  readonly z: number;
  readonly radii: readonly number[];
  readonly windows: readonly AngularWindow[] | undefined;
  readonly circles: readonly RemovedArcs[];
  /** The smallest distance from the work axis that any tooth reached inside the windows; Infinity if none did. */
  deepestRadius = Infinity;

  constructor(plan: SectionPlan) {
    this.z = plan.z;
    this.radii = plan.radii;
    this.windows = plan.windows;
    this.circles = plan.radii.map(() => new RemovedArcs());
  }

  get outermostRadius(): number {
    return this.radii.at(-1) ?? 0;
  }

  /** Whether an arc of half width `half` about `angle` can matter here. */
  sees(angle: number, half: number): boolean {
    if (!this.windows) return true;
    return this.windows.some((window) => Math.abs(wrapped(angle - window.middle)) <= window.half + half);
  }
}
