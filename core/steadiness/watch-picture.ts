import {
  type AccuracySettings,
  accuracyOutlook,
  type Outlook,
  STEADY_PERIODS,
  standardErrorAfter,
} from './accuracy.ts';
import type { HeelEstimate, Verdict } from './estimate.ts';
import { joinedEstimate, type Part } from './joined.ts';
import { leadingOf } from './leading.ts';
import type { NotUsedStretches, OpenStretch } from './not-used.ts';
import { BLOCK_S, type RollModel } from './roll-model.ts';
import { FEWEST_PERIODS, type Track } from './track.ts';
import type { WatchPicture } from './watch-types.ts';

/** What the verdict remembers, so that it stands still. */
export interface SteadyMemory {
  steady: boolean;
  outOfReach: boolean;
}

export interface Scene {
  readonly nowS: number;
  readonly tracks: readonly Track[];
  readonly stretches: NotUsedStretches;
  readonly accuracy: AccuracySettings;
  readonly zeroDeg: ReadonlyMap<string, number>;
  readonly memory: SteadyMemory;
}

/** Once steady, the standard error may grow back by this before the word is taken back. */
const STANDS_STILL = 1.3;

/** No free vessel is damped more than this; and below this many noises there is no roll to judge. */
const MOST_OWN_DAMPING = 0.5;
const NOISE_TO_ROLL = 5;

type TrackPart = Part & { readonly track: Track };

/**
 * The parts whose heel is the vessel's. A slow one feels the same roll and wind over a shorter
 * time, so it adds nothing but the noise of its own zero.
 */
export function leadingParts(parts: readonly TrackPart[]): readonly TrackPart[] {
  return leadingOf(parts, ({ track }) => track.watched.settlingS);
}

/** The instruments that have a heel to be read now. */
export function partsOf(tracks: readonly Track[], stretches: NotUsedStretches): TrackPart[] {
  return tracks.flatMap((track) => {
    const { instrument, refused } = track.watched;
    const estimate = track.estimate();
    if (refused !== null || estimate === null || stretches.of(instrument) !== undefined) return [];
    const noiseDeg = track.model?.noiseDeg ?? 0;
    return [
      { track, instrument, estimate, ownVariance: (noiseDeg ** 2 * BLOCK_S) / track.countedS },
    ];
  });
}

/** The one whose roll stands for the vessel's: the quickest, and of those the one counted longest. */
export function periodOf(parts: readonly TrackPart[]): { track: Track; model: RollModel } | null {
  const [first] = parts
    .map(({ track }) => ({ track, model: track.model! }))
    .sort(
      (a, b) =>
        a.track.watched.settlingS - b.track.watched.settlingS ||
        b.track.countedS - a.track.countedS,
    );
  return first ?? null;
}

interface Joined {
  readonly verdict: Verdict;
  readonly reason: string;
  readonly estimate: HeelEstimate | null;
  readonly countedS: number;
  readonly remainingS: number | null;
  readonly inAMinuteDeg: number | null;
}

/** Verdict, reason and estimate of each instrument and of all together, now. */
export function drawPicture(scene: Scene): WatchPicture {
  const joined = joinedNow(scene);
  const steady = joined.verdict === 'steady';
  const model = periodOf(partsOf(scene.tracks, scene.stretches))?.model;
  scene.memory.steady = steady;
  return {
    instruments: scene.tracks.map((track) => ({
      instrument: track.watched.instrument,
      label: track.watched.label,
      ...verdictOf(track, scene, joined),
      estimate: track.estimate(),
      refused: track.watched.refused,
    })),
    joined: {
      ...joined,
      readable: steady,
      whyNot: steady ? null : joined.reason,
      rollPeriodS: model?.periodS ?? null,
      dampingRatio: model?.dampingRatio ?? null,
    },
    notUsed: scene.stretches.shown(scene.nowS),
  };
}

function joinedNow(scene: Scene): Joined {
  const { tracks, stretches, nowS } = scene;
  const usable = tracks.filter((track) => track.watched.refused === null);
  const vessel = stretches.of(null);
  const parts = partsOf(tracks, stretches);
  const estimate = joinedEstimate(leadingParts(parts), scene.zeroDeg);
  const countedS = Math.max(0, ...usable.map((track) => track.countedS));
  const without = { estimate, countedS, remainingS: null, inAMinuteDeg: null };
  if (vessel?.kind === 'carrying') {
    return { ...without, estimate: null, verdict: 'settling', reason: 'weight is being moved' };
  }
  const speaking = usable.filter(
    (track) => track.lastS !== null && stretches.of(track.watched.instrument)?.kind !== 'silent',
  );
  if (usable.length === 0 && tracks.length > 0) {
    const reason = 'no instrument may be used: none has a valid certificate';
    return { ...without, verdict: 'settling', reason };
  }
  if (speaking.length === 0) {
    return { ...without, verdict: 'silent', reason: silenceOf(usable, nowS) };
  }
  if (vessel !== undefined) {
    const reason = `${vessel.kind}, ${everyOne(tracks.length)}`;
    return { ...without, verdict: 'disturbed', reason };
  }
  const sound = speaking.filter((t) => stretches.of(t.watched.instrument) === undefined);
  if (sound.length === 0) {
    const own = stretches.of(speaking[0]!.watched.instrument)!;
    return { ...without, verdict: 'disturbed', reason: reasonOf(own, nowS) };
  }
  return {
    ...counting(scene, sound, parts, estimate),
    countedS,
    inAMinuteDeg: inAMinute(parts, estimate),
  };
}

/** Nothing is in the way: how far has it come? */
function counting(
  scene: Scene,
  sound: readonly Track[],
  parts: readonly TrackPart[],
  estimate: HeelEstimate | null,
): Omit<Joined, 'countedS' | 'inAMinuteDeg'> {
  const waitS = Math.max(...sound.map((track) => waitsS(track, scene.nowS)));
  const leading = periodOf(parts);
  if (estimate === null || leading === null) {
    return { verdict: 'settling', reason: moreSeconds(waitS), estimate, remainingS: waitS };
  }
  const countedS = leading.track.countedS;
  const fullS = STEADY_PERIODS * leading.model.periodS - countedS;
  const outlook = accuracyOutlook(
    { standardErrorDeg: ofWindow(estimate, leading.track), countedS, model: leading.model },
    scene.accuracy,
    scene.memory.outOfReach,
  );
  scene.memory.outOfReach = outlook.kind !== 'reachable' && fullS <= 0;
  if (rollsNotByHerself(leading)) {
    const reason = 'motion without a roll of her own: not afloat and free?';
    return { verdict: 'settling', reason, estimate, remainingS: null };
  }
  const soFar = `±${estimate.halfWidth95Deg.toFixed(3)}° over ${Math.round(countedS)} s`;
  if (outlook.kind === 'too-wide' && fullS <= 0) {
    const reason = `heel wanders by ${halfWidthWords(outlook.bestDeg)}, too much for a reading`;
    return { verdict: 'settling', reason, estimate, remainingS: null };
  }
  const moreS = outlook.kind === 'too-wide' ? scene.accuracy.bestAfterS : outlook.moreS;
  const leftS = Math.max(waitS, fullS, moreS);
  const ownDeg = ofWindow(estimate, leading.track);
  const still = scene.memory.steady && standsStill(ownDeg, outlook, scene.accuracy);
  if (leftS <= 0 || (still && Math.max(waitS, fullS) <= 0)) {
    const best = outlook.kind === 'best' ? ', the best this wind and swell allow' : '';
    return { verdict: 'steady', reason: `${soFar}${best}`, estimate, remainingS: 0 };
  }
  if (outlook.kind === 'best' && fullS <= 0 && outlook.moreS > waitS) {
    const atS = Math.round(countedS + outlook.moreS);
    const best = halfWidthWords(outlook.bestDeg);
    const reason = `wind and swell allow ${best} at best, offered when ${atS} s are counted`;
    return { verdict: 'settling', reason, estimate, remainingS: null };
  }
  return { verdict: 'settling', reason: moreSeconds(leftS), estimate, remainingS: leftS };
}

function inAMinute(parts: readonly TrackPart[], estimate: HeelEstimate | null): number | null {
  const leading = periodOf(parts);
  if (estimate === null || leading === null) return null;
  const { track, model } = leading;
  const now = { standardErrorDeg: ofWindow(estimate, track), countedS: track.countedS, model };
  return Math.hypot(standardErrorAfter(now, 60), track.missingDeg);
}

/** What waiting can lessen: without what repeated states show to be missing from every window. */
function ofWindow({ standardErrorDeg }: HeelEstimate, { missingDeg }: Track): number {
  return Math.sqrt(Math.max(standardErrorDeg ** 2 - missingDeg ** 2, 0));
}

/** A motion well over the noise that no lightly damped roll explains. */
function rollsNotByHerself({ track, model }: { track: Track; model: RollModel }): boolean {
  return (
    track.isPrompt &&
    model.dampingRatio > MOST_OWN_DAMPING &&
    model.rollDeg > NOISE_TO_ROLL * model.noiseDeg
  );
}

function standsStill(ownDeg: number, outlook: Outlook, accuracy: AccuracySettings) {
  const limit =
    outlook.kind === 'best' ? accuracy.worstStandardErrorDeg : accuracy.targetStandardErrorDeg;
  return ownDeg <= STANDS_STILL * limit;
}

/** Seconds until the instrument has settled and counted three of its periods. */
function waitsS(track: Track, nowS: number): number {
  const toCountS = FEWEST_PERIODS * track.periodS - track.countedS;
  return Math.max(0, track.settlesInS(nowS) + toCountS);
}

function verdictOf(
  track: Track,
  scene: Scene,
  joined: Joined,
): { verdict: Verdict; reason: string } {
  const { stretches, nowS } = scene;
  const own = stretches.of(track.watched.instrument);
  const vessel = stretches.of(null);
  if (own?.kind === 'silent' || track.lastS === null) {
    return { verdict: 'silent', reason: silenceOf([track], nowS) };
  }
  if (own !== undefined) return { verdict: 'disturbed', reason: reasonOf(own, nowS) };
  if (vessel?.kind === 'carrying') return { verdict: 'settling', reason: joined.reason };
  if (vessel !== undefined) return { verdict: 'disturbed', reason: joined.reason };
  const settlesInS = track.settlesInS(nowS);
  if (settlesInS > 0) {
    return { verdict: 'settling', reason: `settles itself for ${Math.ceil(settlesInS)} s more` };
  }
  const estimate = track.estimate();
  if (estimate === null) {
    return { verdict: 'settling', reason: moreSeconds(waitsS(track, nowS)) };
  }
  if (joined.verdict === 'steady') {
    const reason = `±${estimate.halfWidth95Deg.toFixed(3)}° over ${Math.round(track.countedS)} s`;
    return { verdict: 'steady', reason: withShaking(track, reason) };
  }
  return { verdict: 'settling', reason: withShaking(track, joined.reason) };
}

/** An engine is told where it is felt, and nothing is rejected for it. */
function withShaking(track: Track, reason: string): string {
  const told = track.rawShaking.told();
  return told === null ? reason : `${reason}; ${told}`;
}

/** ± is 95 % wherever it is said; of a window still to come, by the normal law. */
const NORMAL_95 = 1.96;
const halfWidthWords = (standardErrorDeg: number) =>
  `±${(NORMAL_95 * standardErrorDeg).toFixed(3)}°`;

const moreSeconds = (leftS: number) => `${Math.max(1, Math.ceil(leftS))} s more`;

const EVERY_ONE = ['no instrument', 'the instrument', 'both instruments', 'all three instruments'];
const everyOne = (count: number) => EVERY_ONE[count] ?? `all ${count} instruments`;

function silenceOf(tracks: readonly Track[], nowS: number): string {
  if (tracks.length === 0) return 'there is no instrument yet';
  const last = tracks.map((track) => track.lastS).filter((lastS) => lastS !== null);
  if (last.length === 0) return 'nothing received yet';
  return `silent for ${Math.max(1, Math.round(nowS - Math.max(...last)))} s`;
}

function reasonOf(own: OpenStretch, nowS: number): string {
  if (own.kind === 'stuck') return `stuck value for ${Math.round(nowS - own.fromS)} s`;
  if (own.kind === 'saturated') return 'at the end of its range';
  return `${own.kind}, this instrument only`;
}
