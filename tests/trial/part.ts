/** What a part of the trial is given. Seeds rotate with the commit so that slices add up. */
export interface TrialContext {
  readonly commit: string;
  /** First seed of this slice; parts use this and the following ones. */
  readonly firstSeed: number;
  /** Wall time in milliseconds after which no new piece of work is begun. */
  readonly untilMs: number;
  readonly nowMs: () => number;
  readonly say: (text: string) => void;
  /** Folder of motion recorded by others, where one was given. */
  readonly recordingsFolder: string | null;
  /** Results of earlier slices that were kept. */
  readonly kept: readonly TrialResult[];
}

/** One line of tests/trial/results.jsonl. A law broken is red; an aim missed is only printed. */
export interface TrialResult {
  readonly part: string;
  readonly commit: string;
  readonly seeds: readonly [first: number, count: number];
  /** Figures that add up over slices, and others, by name. */
  readonly figures: Readonly<Record<string, number | string>>;
  /** Laws that did not hold, in words; empty is good. */
  readonly broken: readonly string[];
}

export interface TrialPart {
  readonly name: string;
  readonly what: string;
  run(context: TrialContext): Promise<TrialResult>;
  /** What all results together say beside what is aimed at, where a part has such a table. */
  table?(results: readonly TrialResult[]): string;
}
