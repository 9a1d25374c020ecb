import { OddOneOut } from './odd-one-out.ts';
import type { Track } from './track.ts';
import { degreesInWords } from './what-is-seen.ts';

/** What one instrument shows and the others do not. */
export interface Alone {
  readonly track: Track;
  readonly kind: 'knock' | 'drift';
  readonly evidence: string;
}

/** An instrument found odd within this time may be disturbed alone. */
const ODD_LATELY_S = 3;
/** An alarm of one is its own or the vessel's after so long; later than this it is another alarm. */
const WAIT_FOR_OTHERS_S = 1;
const FORGOTTEN_S = 4;
/** A jump that has grown by this is a drift. */
const GROWN = 1.6;
/** Standard errors apart from the others that are not chance, and degrees that are worth a word. */
const APART_ERRORS = 6;
const LEAST_APART_DEG = 0.006;
/** Standard errors that say whose an alarm is. */
const OWN_ERRORS = 3.5;
/** The last sound one stands alone when it is off by so much, and by so many times what the others are. */
const LEAST_ALONE_DEG = 0.02;
const MUCH_BETTER = 4;
/** One that is off by this part of the worst may be the one that is wrong. */
const NEARLY_WORST = 0.6;

/** The prompt instruments against each other, block by block. */
export class ComparedTracks {
  private readonly odd = new OddOneOut();
  private readonly lastOddS = new Map<string, number>();
  /** How far an instrument had jumped when that was noticed. */
  private readonly jumpedDeg = new Map<string, number>();
  /** Since when an instrument alone has been alarmed. */
  private readonly unfeltS = new Map<string, number>();
  private comparedBlock = -1;

  beginState(): void {
    this.odd.beginState();
  }

  /** Seconds since the instrument was last odd, or since `otherwiseS`. */
  quietS(track: Track, atS: number, otherwiseS: number): number {
    return atS - (this.lastOddS.get(track.watched.instrument) ?? otherwiseS);
  }

  /** Is an alarm of this instrument its own? */
  isOwn(track: Track, atS: number): boolean {
    const { instrument } = track.watched;
    if (atS - (this.lastOddS.get(instrument) ?? Number.NEGATIVE_INFINITY) < ODD_LATELY_S)
      return true;
    return (this.odd.apart(instrument)?.errors ?? 0) > OWN_ERRORS;
  }

  /** The others may be about to feel it, or to tell that it is this one's own: a moment is given them. */
  waits(track: Track, atS: number): boolean {
    const { instrument } = track.watched;
    const sinceS = this.unfeltS.get(instrument);
    if (sinceS === undefined || atS - sinceS > FORGOTTEN_S) {
      this.unfeltS.set(instrument, atS);
      return true;
    }
    return atS - sinceS < WAIT_FOR_OTHERS_S;
  }

  /** A jump that goes on growing was the beginning of a drift: that in words, else null. */
  driftWords(track: Track): string | null {
    const jumpedDeg = this.jumpedDeg.get(track.watched.instrument);
    const offDeg = this.offDeg(track);
    if (jumpedDeg === undefined || Math.abs(offDeg) < GROWN * jumpedDeg) return null;
    return `${track.watched.label} alone drifts, by ${degreesInWords(offDeg)} so far against the others`;
  }

  /** How far it is from where the state's beginning had it; 0 while that is not known. */
  private offDeg(track: Track): number {
    return this.odd.apart(track.watched.instrument)?.offDeg ?? 0;
  }

  isApart(track: Track): boolean {
    const apart = this.odd.apart(track.watched.instrument);
    return (
      apart !== null && apart.errors > APART_ERRORS && Math.abs(apart.offDeg) > LEAST_APART_DEG
    );
  }

  /**
   * Does the last one held for sound stand alone against others that agree much better with each
   * other? Then it was the wrong one. Degrees it is off by at least; null: no.
   */
  standsAloneBy(last: Track, others: readonly Track[]): number | null {
    if (others.length < 2) return null;
    const between = (one: Track, other: Track) =>
      this.odd.between(one.watched.instrument, other.watched.instrument);
    const toLast = others.map((other) => between(other, last));
    const among = others.flatMap((one, k) => others.slice(k + 1).map((two) => between(one, two)));
    if (toLast.includes(null) || among.includes(null)) return null;
    const leastDeg = Math.min(...toLast.map((off) => off!));
    const mostDeg = Math.max(...among.map((off) => off!));
    return leastDeg > LEAST_ALONE_DEG && leastDeg > MUCH_BETTER * mostDeg ? leastDeg : null;
  }

  /** Compares one block of all; returns the one that is wrong, if one is. */
  compare(tracks: readonly Track[], isSound: (track: Track) => boolean, atS: number): Alone | null {
    const blocks = tracks.map((track) => ({ track, ...track.lastBlock() }));
    const block = blocks[0]?.block;
    if (blocks.length < 2 || block === undefined || block === this.comparedBlock) return null;
    if (blocks.some((one) => one.block !== block)) return null;
    if (block !== this.comparedBlock + 1) this.odd.interrupt();
    this.comparedBlock = block;
    if (blocks.some(({ heelDeg }) => Number.isNaN(heelDeg))) {
      this.odd.interrupt();
      return null;
    }
    const odd = this.odd.push(
      blocks.map(({ track, heelDeg }) => ({
        instrument: track.watched.instrument,
        heelDeg,
        isSound: isSound(track),
      })),
    );
    for (const one of odd) this.lastOddS.set(one.instrument, atS);
    const apart = tracks
      .filter((track) => this.isApart(track))
      .map((track) => ({ track, offDeg: this.offDeg(track) }));
    const jumped = odd.map(({ instrument, offDeg }) => ({
      ...{ offDeg, track: tracks.find((one) => one.watched.instrument === instrument)! },
    }));
    const suspect = worstOf(jumped) ?? worstOf(apart);
    if (suspect === null) return null;
    const { track, offDeg } = suspect;
    const { label } = track.watched;
    if (jumped.length > 0) {
      const evidence = `${label} alone jumped by ${degreesInWords(offDeg)} against the others`;
      this.jumpedDeg.set(track.watched.instrument, Math.abs(offDeg));
      return { track, kind: 'knock', evidence };
    }
    const evidence = `${label} alone has drifted by ${degreesInWords(offDeg)} against the others`;
    return { track, kind: 'drift', evidence };
  }
}

/** The farthest off; of those nearly as far off the one whose own past speaks most against it. */
function worstOf(
  off: readonly { track: Track; offDeg: number }[],
): { track: Track; offDeg: number } | null {
  const worst = Math.max(0, ...off.map(({ offDeg }) => Math.abs(offDeg)));
  const [suspect] = off
    .filter(({ offDeg }) => Math.abs(offDeg) > NEARLY_WORST * worst)
    .sort((a, b) => shareOf(b.track) - shareOf(a.track));
  return suspect ?? null;
}

function shareOf(track: Track): number {
  return track.judge?.suspicion().share ?? 0;
}
