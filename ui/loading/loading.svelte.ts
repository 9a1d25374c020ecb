import type { LightshipInput } from '#core/condition/lightship-input.ts';
import { FAULTS, Fault, type FaultReport } from '#core/fault/fault.ts';
import type { LoadChange } from '#core/limits/change.ts';
import type { JudgedPicture } from '#core/limits/judged-picture.ts';
import type { MostHere } from '#core/limits/most-here.ts';
import type { Remedies } from '#core/limits/remedies.ts';
import type { HullFile } from '#core/session/hull-of-text.ts';
import type { TextFile } from '../prepare/hull-files.ts';
import type { DeskAnswer, DeskQuestion, OpenedLoading } from './loading-desk.ts';
import { type LoadingFiles, NO_FILES, withFiles } from './loading-files.ts';

/** Without the number, which the desk gives. */
type Unnumbered = DeskQuestion extends infer Q
  ? Q extends unknown
    ? Omit<Q, 'id'>
    : never
  : never;

/** The most that was found, and for which places it was looked for. */
export interface MostFound {
  readonly forChange: LoadChange;
  readonly most: MostHere | null;
}

/** What would put a condition right, and with which change asked about. Null: no uncertainty is stated. */
export interface RemediesFound {
  readonly forChange: LoadChange | null;
  readonly remedies: Remedies | null;
}

/**
 * The loading page's state and its worker. Questions about loads come faster than answers while
 * somebody slides: the newest waits, those between are dropped.
 */
export class LoadingState {
  files = $state.raw<LoadingFiles>(NO_FILES);
  opened = $state.raw<OpenedLoading | null>(null);
  condition = $state(0);
  now = $state.raw<JudgedPicture | null>(null);
  changed = $state.raw<JudgedPicture | null>(null);
  most = $state.raw<MostFound | null>(null);
  remedies = $state.raw<RemediesFound | null>(null);
  refused = $state.raw<{ fault: FaultReport; remedy: string } | null>(null);
  busy = $state(false);

  readonly #worker: Worker;
  #id = 0;
  #asked: DeskQuestion | null = null;
  #waiting: Unnumbered | null = null;

  constructor(worker: Worker) {
    this.#worker = worker;
    worker.onmessage = (event: MessageEvent<DeskAnswer>) => this.#take(event.data);
    worker.onerror = () => {
      this.busy = false;
      const remedy = FAULTS['program-fault'].remedy;
      this.refused = {
        fault: { code: 'program-fault', where: 'loading', found: 'the calculation stopped' },
        remedy,
      };
    };
  }

  /** Takes files a person opened; `recordHull` serves where none of them is a hull. */
  open(
    texts: readonly TextFile[],
    recordHull: HullFile | null,
    lightship: LightshipInput | null,
  ): void {
    this.refused = null;
    try {
      this.files = withFiles(this.files, texts);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      this.refused = { fault: error.report, remedy: FAULTS[error.code].remedy };
      return;
    }
    if (this.files.loading === null) return;
    this.#ask({ ask: 'open', files: this.files, recordHull, lightship });
  }

  choose(condition: number): void {
    this.condition = condition;
    this.changed = null;
    this.most = null;
    this.remedies = null;
    this.#ask({ ask: 'judge', condition, change: null });
  }

  judge(change: LoadChange | null): void {
    this.#ask({ ask: 'judge', condition: this.condition, change });
  }

  lookForMost(change: LoadChange): void {
    this.#ask({ ask: 'most', condition: this.condition, change });
  }

  lookForRemedies(change: LoadChange | null): void {
    this.#ask({ ask: 'remedies', condition: this.condition, change });
  }

  end(): void {
    this.#worker.terminate();
  }

  #ask(question: Unnumbered): void {
    if (this.#asked !== null) {
      this.#waiting = question;
      return;
    }
    this.#id += 1;
    this.#asked = { ...question, id: this.#id } as DeskQuestion;
    this.busy = true;
    // Files and changes are held in the page's own wrappings, which a worker cannot be sent.
    this.#worker.postMessage($state.snapshot(this.#asked));
  }

  #take(answer: DeskAnswer): void {
    const asked = this.#asked;
    this.#asked = null;
    this.busy = false;
    if (asked !== null && answer.id === asked.id) this.#show(answer, asked);
    const next = this.#waiting;
    this.#waiting = null;
    if (next !== null) this.#ask(next);
  }

  #show(answer: DeskAnswer, asked: DeskQuestion): void {
    this.refused = answer.answer === 'refused' ? answer : null;
    switch (answer.answer) {
      case 'opened':
        this.opened = answer.opened;
        this.now = null;
        this.choose(0);
        break;
      case 'judged':
        this.now = answer.now;
        this.changed = answer.changed;
        break;
      case 'most':
        if (asked.ask !== 'open' && asked.change !== null)
          this.most = { forChange: asked.change, most: answer.most };
        break;
      case 'remedies':
        if (asked.ask !== 'open')
          this.remedies = { forChange: asked.change, remedies: answer.remedies };
        break;
      case 'refused':
        if (asked.ask === 'judge') this.changed = null;
        break;
    }
  }
}
