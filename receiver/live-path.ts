import { Fault } from '#core/fault/fault.ts';
import type { Line, Watching } from '#core/record/line.ts';
import type { LineRead } from '#core/record/read-line.ts';
import type { TakenOf } from '#core/record/reading-line.ts';
import type { SessionState } from '#core/session/session.ts';
import type { TakenReading, WatchPicture, WatchSettings } from '#core/steadiness/watch-types.ts';
import type { Clock } from '#core/time/clock.ts';
import { EarlyBlocks } from './early-blocks.ts';
import { watchedInstruments } from './instruments.ts';
import type { LineFollowers } from './line-followers.ts';
import { LiveStreams, type SmoothedHeel } from './live-streams.ts';
import { StateTold } from './state-told.ts';
import { type SteadinessHeard, SteadinessLink } from './steadiness-link.ts';
import type { ToSteadinessWorker } from './steadiness-messages.ts';
import type { ToldToWatch } from './tell-watch.ts';
import { Traces } from './traces.ts';
import { type Rejected, type WatchLink, withClockRate } from './watch-link.ts';

type LineOf<K extends Line['kind']> = Extract<Line, { kind: K }>;
type Overrule = Extract<ToSteadinessWorker, { type: 'overrule' }>;

/** While samples came within this long on the wall, the watch is not told a time far ahead of them. */
const FLOWING_WITHIN_S = 2;
const MOST_AHEAD_S = 2;

/**
 * From lines to what is seen now: follows the record, converts and smooths each block and hands
 * it to the steadiness worker. At opening it follows the old lines in the same way, so that the
 * state that was being read goes on where it was.
 */
export class LivePath {
  readonly traces = new Traces();
  picture: WatchPicture | null = null;
  onFinished: (finished: readonly Rejected[]) => void = () => {};
  onSmoothed: (heel: SmoothedHeel) => void = () => {};
  readonly #streams: LiveStreams;
  readonly #followers: LineFollowers;
  readonly #machine: Clock;
  #clock: Clock | null = null;
  readonly #linkFor: (settings: WatchSettings, heard: SteadinessHeard) => WatchLink;
  #worker: WatchLink | null = null;
  startedLines = 0;
  #restartedLines: number | null = null;
  #sinceLines = 0;
  #watched = '';
  readonly #told = new StateTold();
  readonly #early: EarlyBlocks;
  #settings: WatchSettings | null = null;
  #say: (body: Watching) => void = () => {};
  /** The worker was started again and no line says so yet: what it estimates could not be repeated. */
  #restartUntold = false;
  #restless = false;
  #newestS = -Infinity;
  #newestMachineS = -Infinity;

  constructor(
    followers: LineFollowers,
    machine: Clock,
    linkFor = (settings: WatchSettings, heard: SteadinessHeard): WatchLink =>
      new SteadinessLink(settings, heard),
  ) {
    this.#linkFor = linkFor;
    this.#followers = followers;
    this.#machine = machine;
    this.#streams = new LiveStreams(followers.timeMap);
    this.#early = new EarlyBlocks(followers.timeMap);
  }

  /**
   * From here on lines are live: a worker is run as soon as there are instruments. `say` makes a
   * line of what the worker is told beside the others, and that line is followed like them.
   */
  start(clock: Clock, say: (body: Watching) => void = () => {}): void {
    this.#clock = clock;
    this.#say = say;
    const { session } = this.#followers;
    this.startedLines = session.lines;
    for (const { block, atS } of this.#early.taken())
      for (const heel of this.#streams.takeTimed(block, atS, session)) this.#smoothed(heel);
    this.#watchInstruments(session);
  }

  /** A line that has just been followed by everything else. */
  follow({ line }: LineRead): void {
    const session = this.#followers.session;
    switch (line.kind) {
      case 'stream-opened':
        this.#streams.open(line.body);
        return;
      case 'stream-closed':
        if (this.#clock !== null) this.#streams.close(line.body.stream);
        return;
      case 'samples':
        // Of a whole day only the state that is being read is converted again.
        if (this.#clock === null) {
          if (this.#told.sinceS !== null) this.#early.keep(line.body);
        } else for (const heel of this.#streams.take(line.body, session)) this.#smoothed(heel);
        return;
      case 'station-clock':
      case 'board-clock':
        if (this.#clock === null) return;
        for (const heel of this.#streams.takeWaiting(session)) this.#smoothed(heel);
        return;
      case 'mounting':
      case 'certificate':
        this.#watchInstruments(session);
        return;
      case 'certificate-replaced':
      case 'instrument-remounted':
        this.#beganAnew(line, session);
        return;
      case 'overruled':
        this.#overrule(line.body.line, session);
        return;
      default:
        this.#dayLine(line, session);
    }
  }

  /**
   * A simulated vessel that was started again carries her weights to their places once more: what
   * she does meanwhile is no reading. Said at every status; only changes matter.
   */
  setRestless(restless: boolean): void {
    if (restless === this.#restless || this.#clock === null) return;
    const counts = this.#followers.session.awaits === 'reading';
    if (!counts || this.#said(restless ? 'lifted' : 'began', this.#clock.monotonicS()))
      this.#restless = restless;
  }

  askPicture(): void {
    if (this.#restartUntold) this.#said('restarted', this.#watchTimeS());
    this.#worker?.askPicture(this.#watchTimeS());
  }

  /** The reading, with which lines it was estimated from. */
  async takeReading(): Promise<TakenReading & { readonly taken: TakenOf }> {
    if (this.#worker === null)
      throw new Fault('act-not-steady', 'take-reading', 'there is no instrument yet');
    if (this.#told.sinceS === null)
      throw new Fault('act-not-steady', 'take-reading', 'the weights are being carried');
    if (this.#restartUntold)
      throw new Fault('act-not-steady', 'take-reading', 'the estimator was restarted');
    const taken: TakenOf = {
      nowS: this.#watchTimeS(),
      afterLines: this.#followers.session.lines,
      startedLines: this.startedLines,
      sinceS: this.#told.sinceS,
      sinceLines: this.#sinceLines,
      restartedLines: this.#restartedLines,
    };
    const rateUncertainty = this.#followers.timeMap.rateUncertainty;
    const reading = await this.#worker.takeReading(taken.nowS);
    return { ...withClockRate(reading, rateUncertainty), taken };
  }

  async close(): Promise<void> {
    await this.#worker?.close();
  }

  #dayLine(line: Line, session: SessionState): void {
    if (line.kind === 'test-opened') this.#begin(line.receiverS);
    else if (line.kind === 'weight-landed') this.#begin(line.body.landedS);
    else if (line.kind === 'test-resumed') this.#resumed(line, session);
    else if (line.kind === 'shift-begun') this.#lift(line.receiverS);
    else if (line.kind === 'watching') this.#watching(line.body);
    else if (line.kind === 'stop-target') this.#post(this.#told.aim(line.body));
    else if (line.kind === 'reading') this.#worker?.post({ type: 'accepted' });
    else if (line.kind === 'reading-voided' && session.awaits === 'reading')
      // What was wrong with the reading is in its samples: it is read of new ones.
      this.#begin(line.receiverS);
  }

  /** What was smoothed under another certificate or mounting is not of one piece with what comes now. */
  #beganAnew(line: LineOf<'certificate-replaced' | 'instrument-remounted'>, session: SessionState) {
    const { body, receiverS } = line;
    this.#streams.beginAnew('instrument' in body ? body.instrument : body.certificate.instrument);
    this.#watchInstruments(session);
    if (this.#told.sinceS !== null) this.#begin(receiverS);
  }

  /** Nothing smoothed before the test was resumed is of one piece with what comes now. */
  #resumed({ receiverS }: LineOf<'test-resumed'>, session: SessionState): void {
    for (const { instrument } of session.mountings) this.#streams.beginAnew(instrument);
    this.#watchInstruments(session);
    this.#begin(receiverS);
  }

  #overrule(line: number, session: SessionState): void {
    const rejected = session.disturbances.find(({ written }) => written.line === line);
    if (rejected === undefined || this.#told.sinceS === null) return;
    const { fromS, toS, instruments } = rejected.disturbance;
    const message: Overrule = { type: 'overrule', fromS, toS, instruments };
    this.#post(this.#told.overrule(message));
  }

  #watching({ what, atS }: Watching): void {
    if (what === 'began') this.#begin(atS);
    else if (what === 'lifted') this.#lift(atS);
    else if (this.#clock !== null && this.#settings !== null) {
      this.#restartUntold = false;
      this.#restartedLines = this.#followers.session.lines;
      this.#worker?.watch(this.#settings);
      this.#tellAgain();
    }
  }

  /** Whether it became a line: a full disk takes none, and it is tried again until it does. */
  #said(what: Watching['what'], atS: number): boolean {
    try {
      this.#say({ what, atS });
      return true;
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      return false;
    }
  }

  #begin(atS: number): void {
    this.#sinceLines = this.#followers.session.lines;
    this.#early.forget();
    this.#post(this.#told.begin(atS));
  }

  #lift(atS: number): void {
    this.#early.forget();
    this.#post(this.#told.lift(atS));
  }

  #post(message: ToldToWatch): void {
    this.#worker?.post(message);
  }

  #smoothed(heel: SmoothedHeel): void {
    const lastS = heel.atS.at(-1);
    if (lastS === undefined) return;
    if (lastS > this.#newestS) this.#newestS = lastS;
    this.#newestMachineS = this.#machine.monotonicS();
    this.traces.add(heel);
    this.onSmoothed(heel);
    this.#post(this.#told.smoothed(heel));
  }

  /** Instruments or their certificates changed: a worker with the new settings. */
  #watchInstruments(session: SessionState): void {
    if (this.#clock === null || session.mountings.length === 0) return;
    const settings = { instruments: watchedInstruments(session) };
    const watched = JSON.stringify(settings);
    if (watched === this.#watched) return;
    this.#watched = watched;
    this.#settings = settings;
    if (this.#worker === null)
      this.#worker = this.#linkFor(settings, {
        picture: (picture) => {
          this.picture = picture;
        },
        finished: (finished) => {
          if (this.#restartUntold) return;
          const startedLines = this.startedLines;
          this.onFinished(finished.map((one) => ({ ...one, startedLines })));
        },
        restarted: () => {
          this.#restartUntold = true;
          this.#said('restarted', this.#watchTimeS());
        },
      });
    else this.#worker.watch(settings);
    this.#tellAgain();
  }

  /** Tells a worker that knows nothing of the present state what it has missed. */
  #tellAgain(): void {
    for (const message of this.#told.again()) this.#post(message);
  }

  /**
   * Now, for the watch. Blocks arrive a second at a time and, at a pace, some wall milliseconds
   * are seconds: as long as samples flow, that is not silence.
   */
  #watchTimeS(): number {
    const nowS = this.#clock?.monotonicS() ?? 0;
    const flowing = this.#machine.monotonicS() - this.#newestMachineS < FLOWING_WITHIN_S;
    return flowing ? Math.min(nowS, this.#newestS + MOST_AHEAD_S) : nowS;
  }
}
