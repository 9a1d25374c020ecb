import type { StopTarget } from '#core/record/line.ts';
import type { SmoothedHeel } from './live-streams.ts';
import type { ToSteadinessWorker } from './steadiness-messages.ts';
import type { ToldToWatch } from './tell-watch.ts';

type Target = Extract<ToldToWatch, { type: 'target' }>;
type Overrule = Extract<ToSteadinessWorker, { type: 'overrule' }>;

/** Blocks or groups of samples, about one a second and instrument: half an hour of four. */
const MOST_KEPT = 7200;

/** What a watch was told of the present state, kept so that one that knows nothing is told it again. */
export class StateTold {
  #sinceS: number | null = null;
  /** When weights began to be carried; null while none are. */
  #carryingSinceS: number | null = null;
  #kept: SmoothedHeel[] = [];
  #overruled: Overrule[] = [];
  #target: Target | null = null;

  /** When the state began to count; null while weights are carried or no test is open. */
  get sinceS(): number | null {
    return this.#sinceS;
  }

  begin(atS: number): ToldToWatch {
    this.#forget();
    this.#sinceS = atS;
    this.#carryingSinceS = null;
    return { type: 'begin-state', atS };
  }

  lift(atS: number): ToldToWatch {
    this.#forget();
    this.#sinceS = null;
    this.#carryingSinceS = atS;
    return { type: 'carrying', atS };
  }

  aim({ standardErrorDeg, missingDeg }: StopTarget): ToldToWatch {
    this.#target = { type: 'target', standardErrorDeg, missingDeg };
    return this.#target;
  }

  smoothed(heel: SmoothedHeel): ToldToWatch {
    if (this.#sinceS !== null) this.#kept.push(heel);
    if (this.#kept.length > MOST_KEPT) this.#kept.shift();
    return samplesOf(heel);
  }

  overrule(message: Overrule): ToldToWatch {
    this.#overruled.push(message);
    return message;
  }

  /** All of it, in the order it was told. */
  again(): ToldToWatch[] {
    const told: ToldToWatch[] = [];
    if (this.#target !== null) told.push(this.#target);
    if (this.#carryingSinceS !== null) told.push({ type: 'carrying', atS: this.#carryingSinceS });
    if (this.#sinceS === null) return told;
    told.push({ type: 'begin-state', atS: this.#sinceS });
    return [...told, ...this.#kept.map(samplesOf), ...this.#overruled];
  }

  #forget(): void {
    this.#kept = [];
    this.#overruled = [];
  }
}

function samplesOf({ instrument, atS, heelDeg, shaking }: SmoothedHeel): ToldToWatch {
  return { type: 'samples', instrument, atS, heelDeg, shaking };
}
