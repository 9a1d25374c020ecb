import { ComparedTracks } from './compared-tracks.ts';
import type { Suspicion } from './judge.ts';
import { lastLook } from './last-look.ts';
import { NotUsedStretches, type OpenStretch } from './not-used.ts';
import { OwnFaults, silenceEvidence, WORD_STAYS_S } from './own-faults.ts';
import { BLOCK_S } from './roll-model.ts';
import type { Track } from './track.ts';
import { type Happening, whatHappened } from './what-happened.ts';
import { degreesInWords, whatIsSeen } from './what-is-seen.ts';

/** A heel that changed and keeps its new value for this long is the heel now. */
const STEP_AFTER_S = 30;
/** Rolling that stays different for this long is how she rolls now. */
const CHANGED_AFTER_S = 75;
/** A disturbance whose course is understood is over so long after its end, if the rest is her own. */
const UNDERSTOOD_AFTER_S = 2;
/** Another instrument that suspects at least this share of an alarm has felt it too. */
const FELT_TOO = 0.3;
/** An instrument found odd so shortly before the vessel was found disturbed only felt it first. */
const SAME_CAUSE_S = 6;
/** An odd instrument is itself again after so long within its usual difference. */
const ITSELF_AGAIN_S = 2;
/** The water tube goes on telling of a disturbance for this part of its settling time. */
const LAG_PART = 1 / 3;
const MOST_LAG_S = 12;
/** What happened is looked at again each so often while it goes on; what lasts, each so often at rest. */
const LOOK_AGAIN_S = 2;
const LAST_LOOK_S = 4;
const LAST_LOOK_SHARE = 0.08;
/**
 * Finds the stretches that must not be used, and bars the tracks for their length: what the
 * vessel felt, what one instrument alone shows, and instruments silent, stuck or at their end.
 */
export class Disturbances {
  readonly stretches = new NotUsedStretches();
  private readonly compared = new ComparedTracks();
  private readonly own: OwnFaults;
  private lagging: { track: Track; untilS: number }[] = [];
  private happening: Happening | null = null;
  private overS = Number.POSITIVE_INFINITY;
  private lookedS = Number.NEGATIVE_INFINITY;

  constructor(private readonly tracks: readonly Track[]) {
    this.own = new OwnFaults(
      this.stretches,
      (track, stretch) => this.beginOwn(track, stretch),
      (track, stretch, atS) => this.endOwn(track, stretch, atS),
    );
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
    this.compared.beginState();
    for (const track of this.tracks) {
      track.beginState(atS);
      if (this.stretches.of(track.watched.instrument) !== undefined) track.bar(atS);
    }
  }

  /**
   * Before the sample goes to its track: silence, repetition and range.
   * @param newestS newest time of any instrument, this sample's included
   */
  inspect(track: Track, atS: number, heelDeg: number | null, newestS: number): void {
    this.own.inspect(track, atS, heelDeg, newestS);
  }

  /** Instruments that have said nothing for a while, by the time of those that have. */
  listen(nowS: number, silentAfterS: number): void {
    for (const track of this.silentOf(nowS, silentAfterS))
      this.own.beginSilence(track, track.lastS!, nowS);
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
    return this.tracks.filter((track) => this.own.isSilent(track, nowS, silentAfterS));
  }

  /** After a block of this track is complete. */
  judged(track: Track, suspicion: Suspicion, atS: number): void {
    if (this.stretches.of(null) !== undefined) return;
    if (suspicion.share < 1 || this.stretches.of(track.watched.instrument) !== undefined) return;
    const prompt = this.prompt();
    const others = prompt.filter((other) => other !== track);
    // A slow instrument's own settling is not her rolling: the quick ones judge the vessel.
    if (!prompt.includes(track) && others.length > 0) return;
    const fromS = Math.max(0, atS - (suspicion.blocks + 1) * BLOCK_S);
    const evidence = whatIsSeen(track, suspicion);
    const felt = others.some((other) => (other.judge?.suspicion().share ?? 0) > FELT_TOO);
    const isOwn = this.compared.isOwn(track, atS);
    if (others.length > 0 && !felt && !isOwn && this.compared.waits(track, atS)) return;
    if (others.length === 0 || felt || !isOwn) {
      this.beginVessel({ kind: suspicion.kind, fromS, noticedS: atS, evidence });
      return;
    }
    const { label } = track.watched;
    const alone = { kind: 'knock', fromS, noticedS: atS, evidence: `${label} alone: ${evidence}` };
    this.beginOwn(track, alone);
  }

  private beginVessel(given: Omit<OpenStretch, 'instrument'>): void {
    for (const track of this.tracks) {
      const own = this.stretches.of(track.watched.instrument);
      if (own?.kind === 'knock' && given.noticedS - own.noticedS < SAME_CAUSE_S) {
        this.stretches.drop(own);
        track.unbar();
      }
      track.bar(given.fromS);
    }
    const vessel = this.stretches.begin({ ...given, instrument: null });
    this.happening = null;
    this.lookAgain(vessel, given.noticedS);
  }

  private beginOwn(
    track: Track,
    stretch: Pick<OpenStretch, 'kind' | 'fromS' | 'noticedS' | 'evidence'>,
  ): OpenStretch {
    track.bar(stretch.fromS);
    return this.stretches.begin({ ...stretch, instrument: track.watched.instrument });
  }

  private endOwn(track: Track, stretch: OpenStretch, atS: number): void {
    this.stretches.end(stretch, atS);
    track.unbar();
  }

  /** Once a block: may what is open end, and does one instrument differ from the others? */
  review(atS: number): void {
    for (const lag of this.lagging.filter(({ untilS }) => untilS <= atS)) lag.track.unbar();
    this.lagging = this.lagging.filter(({ untilS }) => untilS > atS);
    // What shakes several at once is motion of hers, and the judges' business.
    const shaking = this.tracks.filter((track) => track.isShaking);
    for (const track of this.tracks) this.own.review(track, atS, shaking.length === 1);
    const vessel = this.stretches.of(null);
    if (vessel === undefined) {
      this.compare(atS);
      this.lookOver(atS);
    } else this.reviewVessel(vessel, atS);
    for (const track of this.tracks) {
      this.noteDropped(track, atS);
      const own = this.stretches.of(track.watched.instrument);
      if (own === undefined || (own.kind !== 'knock' && own.kind !== 'drift')) continue;
      if (atS - own.noticedS < WORD_STAYS_S) continue;
      const drift = own.kind === 'knock' ? this.compared.driftWords(track) : null;
      if (drift !== null) Object.assign(own, { kind: 'drift', evidence: drift });
      if (this.compared.isApart(track)) continue;
      const quietS = this.compared.quietS(track, atS, own.noticedS);
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
    if (atS - this.lookedS >= LOOK_AGAIN_S) this.lookAgain(vessel, atS);
    const goesOnS = atS - vessel.noticedS;
    if (goesOnS < WORD_STAYS_S) return;
    const prompt = this.prompt();
    const calm = prompt.every((track) => track.judge?.calm() ?? true);
    const off = prompt
      .map((track) => track.offLevel())
      .find((level) => level !== null && Math.abs(level.offDeg) > level.mayDeg);
    const happening = this.happening;
    const understood = happening?.isCalm === true && !happening.mayPass;
    if (understood && atS >= this.overS + UNDERSTOOD_AFTER_S) {
      if (happening.isLasting) this.goOnFrom(vessel, this.overS);
      else this.endVessel(vessel, atS, true);
      return;
    }
    if (calm && off === undefined) {
      this.lookAgain(vessel, atS);
      this.endVessel(vessel, atS, true);
      return;
    }
    if (goesOnS < (calm ? STEP_AFTER_S : CHANGED_AFTER_S)) return;
    const stays = `it stayed for ${Math.round(goesOnS)} s, counting begins again`;
    if (happening === null) vessel.kind = off === undefined || off === null ? 'change' : 'step';
    const lies = off ? `; the heel now lies ${degreesInWords(off.offDeg)} off the heel before` : '';
    vessel.evidence += `${lies}; ${stays}`;
    this.endVessel(vessel, atS, false);
  }

  /** Names what goes on by the course of the heel so far, of the instrument that shows it best. */
  private lookAgain(vessel: OpenStretch, atS: number): void {
    this.lookedS = atS;
    const track = quietest(this.prompt());
    const model = track?.judge?.model ?? null;
    if (track === undefined || model === null) return;
    const { heelDeg, at } = track.story(vessel.fromS);
    const happening = whatHappened(heelDeg, model, at);
    if (happening === null) return;
    this.happening = happening;
    this.overS =
      (Math.floor(vessel.fromS / BLOCK_S) + happening.from - at) * BLOCK_S + happening.overAfterS;
    vessel.kind = happening.kind;
    vessel.evidence = happening.sentence;
  }

  /** Before a reading is near: has she gone over to another heel in what is counted? */
  private lookOver(atS: number): void {
    if (atS - this.lookedS < LAST_LOOK_S) return;
    const track = quietest(this.prompt());
    if (track?.model == null || atS - this.lookedS < LAST_LOOK_SHARE * track.countedS) return;
    this.lookedS = atS;
    const found = lastLook(track);
    if (found === null) return;
    const { kind, fromS, sentence: evidence } = found;
    this.beginVessel({ kind, fromS, noticedS: atS, evidence });
  }

  private goOnFrom(vessel: OpenStretch, lastsFromS: number): void {
    vessel.evidence += '; counting goes on from the new heel';
    this.stretches.end(vessel, lastsFromS);
    for (const track of this.tracks) {
      track.unbar();
      track.goOnFrom(lastsFromS + (track.isPrompt ? 0 : track.watched.settlingS));
    }
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
    const unfit = ['silent', 'stuck', 'saturated', 'vibration'];
    const kindOf = (track: Track) => this.stretches.of(track.watched.instrument)?.kind ?? '';
    const prompt = this.tracks.filter((track) => track.isPrompt && !unfit.includes(kindOf(track)));
    const isSound = (track: Track) => !['knock', 'drift'].includes(kindOf(track));
    const alone = this.compared.compare(prompt, isSound, atS);
    const sound = prompt.filter(isSound);
    const standsBy =
      sound.length === 1
        ? this.compared.standsAloneBy(
            sound[0]!,
            prompt.filter((track) => !isSound(track)),
          )
        : null;
    if (standsBy !== null) {
      const evidence = `${sound[0]!.watched.label} is ${degreesInWords(standsBy)} off all others, which agree`;
      this.beginOwn(sound[0]!, { kind: 'drift', fromS: 0, noticedS: atS, evidence });
      return;
    }
    if (alone === null || !isSound(alone.track)) return;
    const { track, kind, evidence } = alone;
    const backS = kind === 'knock' ? 2 * BLOCK_S : atS;
    this.beginOwn(track, { kind, fromS: Math.max(0, atS - backS), noticedS: atS, evidence });
  }
}

/** The one that shows a small thing best. */
function quietest(tracks: readonly Track[]): Track | undefined {
  const noise = (track: Track) => track.model?.noiseDeg ?? Number.POSITIVE_INFINITY;
  return [...tracks].sort((a, b) => noise(a) - noise(b))[0];
}
