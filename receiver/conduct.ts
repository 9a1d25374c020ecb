import { Fault } from '#core/fault/fault.ts';
import type { Reading } from '#core/record/reading-line.ts';
import { pauseRefusal } from '#core/session/fold-postponed.ts';
import { remountingRefusal } from '#core/session/fold-remounted.ts';
import { confirmingRefusal } from '#core/session/fold-sign.ts';
import { nextPlannedMoves, requireAwaits } from '#core/session/order-of-day.ts';
import type { SessionState } from '#core/session/session.ts';
import type { TakenReading } from '#core/steadiness/watch-types.ts';
import { INSTRUMENT_WORK, mayAct } from '#core/wire/role-acts.ts';
import type { Act } from '#core/wire/screen-message.ts';
import { appendChange } from './changes.ts';
import { actOfPeople, type PeopleParts, requireLine } from './conduct-people.ts';
import { actOfSurvey, type SurveyParts } from './conduct-survey.ts';
import { instrumentRefusal } from './instruments.ts';
import { prediction } from './prediction.ts';
import type { WhoWrites } from './record-file.ts';
import type { RollConduct } from './roll-conduct.ts';
import type { ScreenPerson } from './screens.ts';
import type { SimulatedVessel } from './simulated-vessel.ts';

export interface ConductParts extends PeopleParts, Pick<SurveyParts, 'checkHull'> {
  readonly vessel: SimulatedVessel;
  readonly roll: RollConduct;
  /** Standard uncertainty of the newest samples' receiver times, null without any. */
  readonly timeUncertaintyS: () => number | null;
  /** What a sensor's own chip last told of its warmth; null: none does. */
  readonly temperatureC: (instrument: string) => number | null;
  readonly takeReading: () => Promise<TakenReading & Pick<Reading, 'taken'>>;
  /** Name and version of the estimator that readings come from. */
  readonly estimator: string;
}

const MOST_TIME_MARKS = 999;

type ActOf<K extends Act['kind']> = Extract<Act, { kind: K }>;

/** The acts of people: each is checked against the order of the day and becomes a line, or is refused. */
export class Conduct {
  readonly #parts: ConductParts;
  #reading = false;

  constructor(parts: ConductParts) {
    this.#parts = parts;
  }

  /** Resolves when the act is appended; its caller waits for the disk. Throws the fault it is refused with. */
  async act(act: Act, person: ScreenPerson): Promise<void> {
    if (!mayAct(person.role, act.kind))
      throw new Fault('act-not-yours', act.kind, `${person.name} is here as ${person.role}`);
    this.#requireLetWork(act, person);
    const who: WhoWrites = { author: person.name, role: person.role };
    const { record } = this.#parts;
    switch (act.kind) {
      case 'begin-shift':
        return this.#beginShift(who);
      case 'weight-landed':
        return this.#weightLanded(who);
      case 'take-reading':
        return await this.#takeReading(who);
      case 'void-reading':
      case 'correct':
      case 'overrule':
      case 'replace-certificate':
        appendChange(record, this.#parts.session(), act, who);
        return;
      case 'remount-instrument': {
        const { instrument, certificate, reason } = act;
        const refusal = remountingRefusal(this.#parts.session(), instrument, certificate);
        if (refusal !== null) throw refusal;
        record.append('instrument-remounted', { instrument, certificate, reason }, who);
        return;
      }
      case 'confirm-sign': {
        const refusal = confirmingRefusal(this.#parts.session(), act.told);
        if (refusal !== null) throw refusal;
        record.append('sign-confirmed', act.told, who);
        return;
      }
      case 'hand-reading':
        return this.#handReading(act, who);
      case 'ask':
      case 'answer-witness':
      case 'take-receipt':
      case 'seal':
      case 'sign':
      case 'technician-work':
        return actOfPeople(act, this.#parts, who);
      case 'look-for-roll':
      case 'refuse-roll-run':
      case 'tell-roll-condition':
        return await this.#parts.roll.act(act, who);
      case 'enter':
      case 'photograph':
        return await actOfSurvey(act, this.#parts, who);
      case 'mark-time':
        return this.#markTime(act.words, who);
      case 'remark':
        requireLine(act.line, this.#parts.session());
        record.append('remark', { text: act.text, line: act.line }, who);
        return;
      case 'postpone-test':
        return this.#pause('test-postponed', act.reason, who);
      case 'resume-test':
        return this.#pause('test-resumed', act.reason, who);
      case 'close-test':
        this.#requireOpen(act.kind);
        record.append('test-closed', { reason: act.reason }, who);
        return;
      case 'simulation':
        return this.#simulation(act, who);
      case 'simulate-sway':
        return this.#sway(who);
    }
  }

  /** While a test is open, a technician's hands on an instrument are the architect's to allow. */
  #requireLetWork(act: Act, person: ScreenPerson): void {
    const { test, closed, people } = this.#parts.session();
    if (person.role !== 'technician' || !INSTRUMENT_WORK.has(act.kind)) return;
    if (test === null || closed !== null || people.technicianWork !== null) return;
    throw new Fault(
      'act-not-now',
      act.kind,
      'a test is open; the architect lets a technician work',
    );
  }

  #beginShift(who: WhoWrites): void {
    const session = this.#parts.session();
    requireAwaits(session, 'shift', 'begin-shift');
    const moves = nextPlannedMoves(session);
    this.#parts.record.append(
      'shift-begun',
      { state: session.states.length, moves: [...moves], ...prediction(session, moves) },
      who,
    );
    this.#parts.vessel.order(this.#parts.session());
  }

  #weightLanded(who: WhoWrites): void {
    const session = this.#parts.session();
    requireAwaits(session, 'landing', 'weight-landed');
    const state = session.states.length - 1;
    const { vessel } = this.#parts;
    if (vessel.isRestless(state)) {
      const carrying = vessel.status?.carrying.join(', ') || 'the weights';
      throw new Fault('act-not-now', 'weight-landed', `still being carried: ${carrying}`);
    }
    const landedS = this.#parts.record.clock.monotonicS();
    const uncertaintyS = this.#parts.timeUncertaintyS();
    const landedUncertaintyS =
      uncertaintyS !== null && Number.isFinite(uncertaintyS)
        ? { landedUncertaintyS: uncertaintyS }
        : {};
    this.#parts.record.append('weight-landed', { state, landedS, ...landedUncertaintyS }, who);
  }

  async #takeReading(who: WhoWrites): Promise<void> {
    requireAwaits(this.#parts.session(), 'reading', 'take-reading');
    if (this.#reading) throw new Fault('act-not-now', 'take-reading', 'a reading is being taken');
    this.#reading = true;
    const before = this.#parts.session();
    const state = before.states.length - 1;
    try {
      const taken = await this.#parts.takeReading();
      const session = this.#parts.session();
      // While the worker thought, someone may have closed the test or begun otherwise.
      requireAwaits(session, 'reading', 'take-reading');
      requireSameCertificates(session, before);
      const reading = readingOf(taken, session, state, this.#parts);
      const overruled = overruledWithin(before, taken);
      if (overruled.length > 0) reading.overruled = overruled;
      this.#parts.record.append('reading', reading, who);
    } finally {
      this.#reading = false;
    }
  }

  #markTime(words: string, who: WhoWrites): void {
    const { record, session } = this.#parts;
    const mark = session().timeMarks.length + 1;
    if (mark > MOST_TIME_MARKS) throw new Fault('input-too-large', 'time marks', String(mark));
    record.append('time-mark', { mark, words }, who);
  }

  #handReading(act: ActOf<'hand-reading'>, who: WhoWrites): void {
    this.#requireOpen(act.kind);
    const state = this.#parts.session().states[act.reading.state];
    if (state === undefined || (state.begun !== null && state.landed === null))
      throw new Fault(
        'act-not-now',
        act.kind,
        `the weights of state ${act.reading.state} are not down`,
      );
    const { timeMarks } = this.#parts.session();
    if ((act.reading.mark ?? 0) > timeMarks.length)
      throw new Fault(
        'input-contradiction',
        'mark',
        `${act.reading.mark} of ${timeMarks.length} made`,
      );
    this.#parts.record.append('hand-reading', act.reading, who);
  }

  #pause(kind: 'test-postponed' | 'test-resumed', reason: string, who: WhoWrites): void {
    const refusal = pauseRefusal(this.#parts.session(), kind);
    if (refusal !== null) throw refusal;
    this.#parts.record.append(kind, { reason }, who);
    // The simulated vessel counts states as the session does.
    if (kind === 'test-resumed') this.#parts.vessel.order(this.#parts.session());
  }

  /** It passes, and only the simulator's own people do it: the record tells it as a remark. */
  #sway(who: WhoWrites): void {
    const { record, session, vessel } = this.#parts;
    this.#requireOpen('simulate-sway');
    if (session().simulation === null || !vessel.connected)
      throw new Fault('act-not-now', 'simulate-sway', 'no simulated vessel is connected');
    if (session().awaits === 'landing')
      throw new Fault('act-not-now', 'simulate-sway', 'weights are under way');
    record.append('remark', { text: 'Simulator: people set her rolling.', line: null }, who);
    vessel.order(session(), { sway: true });
  }

  #simulation(act: ActOf<'simulation'>, who: WhoWrites): void {
    const { record, session, vessel } = this.#parts;
    const simulation = session().simulation;
    if (simulation === null)
      throw new Fault('act-not-now', act.kind, 'this is no simulated vessel');
    if (!vessel.connected)
      throw new Fault('act-not-now', act.kind, 'the simulated vessel is not connected');
    record.append(
      'simulation',
      { ...simulation, paceAsked: act.pace, disturbances: act.disturbances },
      who,
    );
    vessel.order(session());
  }

  #requireOpen(act: string): void {
    const { test, closed } = this.#parts.session();
    if (test === null) throw new Fault('act-not-now', act, 'no test is open yet');
    if (closed !== null) throw new Fault('act-not-now', act, 'the test is closed');
  }
}

/** The line of a reading: only instruments with a certificate in force stand in it. */
function readingOf(
  taken: TakenReading & Pick<Reading, 'taken'>,
  session: SessionState,
  state: number,
  { estimator, temperatureC }: ConductParts,
): Reading {
  const instruments = taken.instruments.map((one) => {
    const certificate = session.certificates.find((each) => each.instrument === one.instrument);
    const refusal = instrumentRefusal(session, one.instrument);
    if (certificate === undefined || refusal !== null)
      throw new Fault('instrument-uncalibrated', one.instrument, refusal ?? 'no certificate');
    return {
      ...one,
      certificate: certificate.number,
      temperatureC: temperatureC(one.instrument),
    };
  });
  return { ...taken, instruments, state, estimator };
}

/** Lines of the rejected time that was overruled when a reading was asked for and reaches into it. */
function overruledWithin(session: SessionState, { fromS, toS }: TakenReading): number[] {
  return session.disturbances
    .filter(({ overruled, disturbance }) => {
      const reachesIn = disturbance.toS > fromS && disturbance.fromS < toS;
      return overruled !== null && reachesIn;
    })
    .map(({ written }) => written.line);
}

/** What the worker reckoned was corrected by the certificates it began with. */
function requireSameCertificates(now: SessionState, before: SessionState): void {
  if (now.certificates !== before.certificates)
    throw new Fault('act-not-now', 'take-reading', 'a certificate was replaced meanwhile');
  if (now.remounted !== before.remounted)
    throw new Fault('act-not-now', 'take-reading', 'an instrument was remounted meanwhile');
}
