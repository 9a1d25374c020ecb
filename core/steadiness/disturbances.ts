import type { Suspicion } from './judge.ts';
import { NotUsedStretches, type OpenStretch } from './not-used.ts';
import { OddOneOut } from './odd-one-out.ts';
import { BLOCK_S } from './roll-model.ts';
import { StuckValue } from './stuck-value.ts';
import type { Track } from './track.ts';

/** No value for so long is silence. */
export const SILENT_AFTER_S = 1.5;
/** Beyond this an inclinometer of +-0.5 g is at its end (asin 0.5 is 30 degrees). */
const MOST_HEEL_DEG = 29.5;
/** A disturbance's word stays this long, so that it can be read. */
const WORD_STAYS_S = 3;
/** A heel that changed and keeps its new value for this long is the heel now. */
const STEP_AFTER_S = 30;
/** Rolling that stays different for this long is how she rolls now. */
const CHANGED_AFTER_S = 75;
/** Another instrument that suspects at least this share of an alarm has felt it too. */
const FELT_TOO = 0.3;
/** An instrument found odd so shortly before the vessel was found disturbed only felt it first. */
const SAME_CAUSE_S = 6;
/** An odd instrument is itself again after so long within its usual difference. */
const ITSELF_AGAIN_S = 2;
/** An instrument found odd within this time may be disturbed alone. */
const ODD_LATELY_S = 3;
/** The water tube goes on telling of a disturbance for this part of its settling time. */
const LAG_PART = 1 / 3;
const MOST_LAG_S = 12;

const degrees = (value: number) => `${value.toFixed(Math.abs(value) < 0.1 ? 3 : 2)}°`;

/**
 * Finds the stretches that must not be used, and bars the tracks for their length: what the
 * vessel felt, what one instrument alone shows, and instruments silent, stuck or at their end.
 */
export class Disturbances {
  readonly stretches = new NotUsedStretches();
  private readonly tracks: readonly Track[];
  private readonly odd = new OddOneOut();
  private readonly stuck = new Map<string, StuckValue>();
  private readonly lastOddS = new Map<string, number>();
  private lagging: { track: Track; untilS: number }[] = [];
  private comparedBlock = -1;

  constructor(tracks: readonly Track[]) {
    this.tracks = tracks;
  }

  private prompt(): Track[] {
    return this.tracks.filter(
      (track) =>
        track.isPrompt &&
        track.lastS !== null &&
        this.stretches.of(track.watched.instrument) === undefined,
    );
  }

  /** Ends what is open: a new state begins and nothing before it counts anyway. */
  beginState(atS: number): void {
    for (const stretch of [...this.stretches.open]) {
      if (stretch.kind !== 'silent' && stretch.kind !== 'stuck') this.stretches.end(stretch, atS);
    }
    this.lagging = [];
    this.odd.beginState();
    for (const track of this.tracks) {
      track.beginState(atS);
      if (this.stretches.of(track.watched.instrument) !== undefined) track.bar(atS);
    }
  }

  /** Before the sample goes to its track: silence, repetition and range. */
  inspect(track: Track, atS: number, heelDeg: number | null): void {
    const { instrument } = track.watched;
    const open = this.stretches.of(instrument);
    if (heelDeg !== null && open?.kind === 'silent') this.endOwn(track, open, atS);
    else if (heelDeg !== null && track.lastS !== null && atS - track.lastS > SILENT_AFTER_S) {
      const stretch = this.beginSilence(track, track.lastS, atS);
      if (stretch !== null) this.endOwn(track, stretch, atS);
    }
    let stuck = this.stuck.get(instrument);
    if (stuck === undefined) {
      stuck = new StuckValue();
      this.stuck.set(instrument, stuck);
    }
    const stuckSinceS = stuck.push(atS, heelDeg);
    const atEnd = heelDeg !== null && Math.abs(heelDeg) > MOST_HEEL_DEG;
    const now = this.stretches.of(instrument);
    if (now?.kind === 'stuck' && stuckSinceS === null && heelDeg !== null) {
      if (atS - now.noticedS >= WORD_STAYS_S) this.endOwn(track, now, atS);
    } else if (now?.kind === 'saturated' && !atEnd && heelDeg !== null) {
      if (atS - now.noticedS >= WORD_STAYS_S) this.endOwn(track, now, atS);
    } else if (now === undefined && stuckSinceS !== null) {
      const evidence = `${track.watched.label} repeats ${degrees(heelDeg!)} without change`;
      this.beginOwn(track, 'stuck', stuckSinceS, atS, evidence);
    } else if (now === undefined && atEnd) {
      const evidence = `${track.watched.label} shows ${degrees(heelDeg)}, the end of its range`;
      this.beginOwn(track, 'saturated', atS, atS, evidence);
    }
  }

  /** Instruments that have said nothing for a while, by the time of those that have. */
  listen(nowS: number, silentAfterS: number): void {
    for (const track of this.silentOf(nowS, silentAfterS))
      this.beginSilence(track, track.lastS!, nowS);
  }

  /** The stretches as they look at a time to which nothing may have come: changes nothing. */
  shownAt(nowS: number, silentAfterS: number): NotUsedStretches {
    return this.stretches.withOpen(
      this.silentOf(nowS, silentAfterS).map((track) => ({
        kind: 'silent',
        fromS: track.lastS!,
        noticedS: nowS,
        instrument: track.watched.instrument,
        evidence: silenceEvidence(track),
      })),
    );
  }

  private silentOf(nowS: number, silentAfterS: number): Track[] {
    return this.tracks.filter(
      (track) =>
        track.lastS !== null &&
        nowS - track.lastS > silentAfterS &&
        this.stretches.of(track.watched.instrument) === undefined,
    );
  }

  private beginSilence(track: Track, lastS: number, nowS: number): OpenStretch | null {
    if (this.stretches.of(track.watched.instrument) !== undefined) return null;
    return this.beginOwn(track, 'silent', lastS, nowS, silenceEvidence(track));
  }

  /** After a block of this track is complete. */
  judged(track: Track, suspicion: Suspicion, atS: number): void {
    const vessel = this.stretches.of(null);
    if (vessel !== undefined) return;
    if (suspicion.share < 1 || this.stretches.of(track.watched.instrument) !== undefined) return;
    const prompt = this.prompt();
    const others = prompt.filter((other) => other !== track);
    const isPrompt = prompt.includes(track);
    // A slow instrument's own settling is not her rolling: the quick ones judge the vessel.
    if (!isPrompt && others.length > 0) return;
    const fromS = Math.max(0, atS - (suspicion.blocks + 1) * BLOCK_S);
    const what = whatIsSeen(track, suspicion);
    const { instrument, label } = track.watched;
    const oddLately =
      atS - (this.lastOddS.get(instrument) ?? Number.NEGATIVE_INFINITY) < ODD_LATELY_S;
    const felt = others.some((other) => (other.judge?.suspicion().share ?? 0) > FELT_TOO);
    if (others.length === 0 || felt || !oddLately) {
      this.beginVessel(suspicion.kind, fromS, atS, what);
    } else this.beginOwn(track, 'knock', fromS, atS, `${label} alone: ${what}`);
  }

  private beginVessel(kind: string, fromS: number, atS: number, evidence: string): void {
    for (const track of this.tracks) {
      const own = this.stretches.of(track.watched.instrument);
      if (own?.kind === 'knock' && atS - own.noticedS < SAME_CAUSE_S) {
        this.stretches.drop(own);
        track.unbar();
      }
      track.bar(fromS);
    }
    this.stretches.begin({ kind, fromS, noticedS: atS, instrument: null, evidence });
  }

  private beginOwn(
    track: Track,
    kind: string,
    fromS: number,
    atS: number,
    evidence: string,
  ): OpenStretch {
    track.bar(fromS);
    const { instrument } = track.watched;
    return this.stretches.begin({ kind, fromS, noticedS: atS, instrument, evidence });
  }

  private endOwn(track: Track, stretch: OpenStretch, atS: number): void {
    this.stretches.end(stretch, atS);
    track.unbar();
  }

  /** Once a block: may what is open end, and does one instrument differ from the others? */
  review(atS: number): void {
    for (const lag of this.lagging.filter(({ untilS }) => untilS <= atS)) lag.track.unbar();
    this.lagging = this.lagging.filter(({ untilS }) => untilS > atS);
    const vessel = this.stretches.of(null);
    if (vessel !== undefined) this.reviewVessel(vessel, atS);
    this.compare(atS);
    for (const track of this.tracks) {
      this.noteDropped(track, atS);
      const own = this.stretches.of(track.watched.instrument);
      if (own === undefined || own.kind !== 'knock') continue;
      if (atS - own.noticedS < WORD_STAYS_S) continue;
      const quietS = atS - (this.lastOddS.get(track.watched.instrument) ?? own.noticedS);
      if (quietS >= ITSELF_AGAIN_S && (track.judge?.calm() ?? true)) this.endOwn(track, own, atS);
    }
  }

  private noteDropped(track: Track, atS: number): void {
    for (const { fromS, toS } of track.takeDropped()) {
      const { instrument, label } = track.watched;
      const evidence = `${label} moved more than twice as wildly as in the time that followed`;
      const stretch = { kind: 'unsettled', fromS, noticedS: atS, instrument, evidence };
      this.stretches.end(stretch, toS);
    }
  }

  private reviewVessel(vessel: OpenStretch, atS: number): void {
    if (vessel.kind === 'carrying') return;
    const goesOnS = atS - vessel.noticedS;
    if (goesOnS < WORD_STAYS_S) return;
    const prompt = this.prompt();
    const calm = prompt.every((track) => track.judge?.calm() ?? true);
    const off = prompt
      .map((track) => track.offLevel())
      .find((level) => level !== null && Math.abs(level.offDeg) > level.mayDeg);
    if (calm && off === undefined) {
      this.endVessel(vessel, atS, true);
      return;
    }
    if (goesOnS < (calm ? STEP_AFTER_S : CHANGED_AFTER_S)) return;
    const stays = `it stayed for ${Math.round(goesOnS)} s, counting begins again`;
    vessel.kind = off === undefined || off === null ? 'change' : 'step';
    const lies = off ? `; the heel now lies ${degrees(off.offDeg)} off the heel before` : '';
    vessel.evidence += `${lies}; ${stays}`;
    this.endVessel(vessel, atS, false);
  }

  private endVessel(vessel: OpenStretch, atS: number, calm: boolean): void {
    this.stretches.end(vessel, atS);
    for (const track of this.tracks) {
      if (!calm) track.startOver(atS);
      const lagS = Math.min(track.watched.settlingS * LAG_PART, MOST_LAG_S);
      if (!track.isPrompt) {
        this.lagging.push({ track, untilS: atS + lagS });
      } else track.unbar();
    }
  }

  private compare(atS: number): void {
    const prompt = this.tracks.filter(
      (track) =>
        track.isPrompt &&
        !['silent', 'stuck', 'saturated'].includes(
          this.stretches.of(track.watched.instrument)?.kind ?? '',
        ),
    );
    if (prompt.length < 2 || this.stretches.of(null) !== undefined) return;
    const blocks = prompt.map((track) => ({ track, ...track.lastBlock() }));
    const block = blocks[0]!.block;
    if (block === this.comparedBlock || blocks.some((other) => other.block !== block)) return;
    this.comparedBlock = block;
    if (blocks.some(({ heelDeg }) => Number.isNaN(heelDeg))) return;
    const odd = this.odd.push(
      blocks.map(({ track, heelDeg }) => ({ instrument: track.watched.instrument, heelDeg })),
    );
    for (const { track } of blocks) {
      const { instrument } = track.watched;
      if (odd.some((one) => one.instrument === instrument)) this.lastOddS.set(instrument, atS);
    }
    if (odd.length === 0) return;
    if (blocks.some(({ track }) => this.stretches.of(track.watched.instrument)?.kind === 'knock')) {
      return;
    }
    const worst = Math.abs(odd[0]!.offDeg);
    const [suspect] = blocks
      .filter(({ track }) =>
        odd.some(
          (one) =>
            one.instrument === track.watched.instrument && Math.abs(one.offDeg) > 0.6 * worst,
        ),
      )
      .sort((a, b) => shareOf(b.track) - shareOf(a.track));
    if (suspect === undefined) return;
    const offDeg = odd.find((one) => one.instrument === suspect.track.watched.instrument)!.offDeg;
    const evidence = `${suspect.track.watched.label} alone jumped by ${degrees(offDeg)} against the others`;
    this.beginOwn(suspect.track, 'knock', atS - 2 * BLOCK_S, atS, evidence);
  }
}

const silenceEvidence = (track: Track) => `no value from ${track.watched.label}`;

/** What the judge saw, in words a witness can check on the trace. */
function whatIsSeen(track: Track, suspicion: Suspicion): string {
  const usual = degrees(1.4 * (track.model?.rollDeg ?? 0));
  if (suspicion.kind === 'wake') {
    const swing = degrees(track.recentRangeDeg(Math.max(suspicion.blocks, 12)));
    return `motion out of step with her own rolling (swings of ${swing} to either side, usual ${usual})`;
  }
  const off = track.offLevel();
  const lies = off === null ? 'heel lies' : `heel lies ${degrees(off.offDeg)}`;
  return `${lies} off its mean, more than her rolling (usual swings ${usual} to either side) explains`;
}

function shareOf(track: Track): number {
  return track.judge?.suspicion().share ?? 0;
}
