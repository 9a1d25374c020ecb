import { changedLightship, yearsBetween } from './growth.ts';
import type { HistoryInput } from './history-input.ts';

/** What a text asks for where its limit is passed. */
export type AsksFor = 'inclining test' | 'lightweight survey';

/** One clause that may ask for a new test, with the figure it goes by. */
export interface DueClause {
  readonly clause: string;
  /** The text was seen, or stands here from memory and decides nothing. */
  readonly provenance: 'seen' | 'from-memory';
  readonly words: string;
  readonly value: number;
  readonly limit: number;
  readonly unit: 't' | 'm' | 'years';
  readonly asksFor: AsksFor;
  /** Passed; not passed; not passed by less than the lightships' own uncertainty; told from memory only. */
  readonly answer: 'due' | 'not-due' | 'not-due-within-uncertainty' | 'from-memory';
}

interface Asked extends Omit<DueClause, 'answer'> {
  /** Half the 95 % interval of the value; null: not known, or none. */
  readonly halfWidth: number | null;
}

const COVERAGE = 1.96;

/**
 * "Is a new test due?" clause by clause, for what was changed since the last test and for what a
 * lightweight survey found against the test before it. `lengthM` between perpendiculars.
 */
export function newTestDue(history: HistoryInput, lengthM: number): DueClause[] {
  return [
    ...foundAgainstBefore(history, lengthM),
    ...changedSince(history, lengthM),
    ...byYears(history, lengthM),
  ].map(({ halfWidth, ...asked }) => ({ ...asked, answer: answerOf(asked, halfWidth) }));
}

function answerOf(
  { value, limit, provenance }: Omit<DueClause, 'answer'>,
  halfWidth: number | null,
): DueClause['answer'] {
  if (provenance === 'from-memory') return 'from-memory';
  if (value > limit) return 'due';
  return halfWidth !== null && value + halfWidth > limit ? 'not-due-within-uncertainty' : 'not-due';
}

/**
 * Resolution A.749(18) 7.1.3: a lightweight survey found her off the approved lightship by over 2 %
 * of displacement or 1 % of length.
 */
function foundAgainstBefore({ tests }: HistoryInput, lengthM: number): Asked[] {
  // An inclining test answers it by itself.
  if (tests.length < 2 || tests.at(-1)!.kind === 'inclining') return [];
  const [before, last] = [tests.at(-2)!.lightship, tests.at(-1)!.lightship];
  const half = (figure: 'mass' | 'lcg') => {
    const [one, two] = [before[figure].standardUncertainty, last[figure].standardUncertainty];
    return one === undefined || two === undefined ? null : COVERAGE * Math.hypot(one, two);
  };
  return [
    {
      ...A749,
      words: 'the survey found another displacement than the test before it',
      value: Math.abs(last.mass.value - before.mass.value),
      limit: 0.02 * before.mass.value,
      unit: 't',
      halfWidth: half('mass'),
    },
    {
      ...A749,
      words: 'the survey found another LCG than the test before it',
      value: Math.abs(last.lcg.value - before.lcg.value),
      limit: 0.01 * lengthM,
      unit: 'm',
      halfWidth: half('lcg'),
    },
  ];
}

const A749 = {
  clause: 'Resolution A.749(18) 7.1.3',
  provenance: 'seen',
  asksFor: 'inclining test',
} as const;

function changedSince(history: HistoryInput, lengthM: number): Asked[] {
  const { lightship } = history.tests.at(-1)!;
  const now = changedLightship(history);
  const lcgChange = Math.abs(now.lcgM - lightship.lcg.value);
  const massChange = Math.abs(now.massT - lightship.mass.value);
  const mass = lightship.mass.value;
  const survey = { clause: '46 CFR 144.315', provenance: 'seen', halfWidth: null } as const;
  return [
    {
      ...A749,
      words: 'the displacement expected by the changes since',
      value: massChange,
      limit: 0.02 * mass,
      unit: 't',
      halfWidth: null,
    },
    {
      ...A749,
      words: 'the LCG expected by the changes since',
      value: lcgChange,
      limit: 0.01 * lengthM,
      unit: 'm',
      halfWidth: null,
    },
    {
      ...survey,
      words: 'all that came, went or was moved since, added up without sign',
      value: now.aggregateT,
      limit: 0.02 * mass,
      unit: 't',
      asksFor: 'lightweight survey',
    },
    {
      ...survey,
      words: 'the LCG by those changes',
      value: lcgChange,
      limit: 0.01 * lengthM,
      unit: 'm',
      asksFor: 'lightweight survey',
    },
    {
      clause: 'IMO interpretation of SOLAS II-1, paragraph 4 (the text was seen in part)',
      provenance: 'seen',
      words: 'changes that can be calculated: 2 % of the displacement or 2 t, whichever is more',
      value: massChange,
      limit: Math.max(0.02 * mass, 2),
      unit: 't',
      asksFor: 'inclining test',
      halfWidth: null,
    },
  ];
}

function byYears({ tests, asOf, carriesPassengers }: HistoryInput, lengthM: number): Asked[] {
  const years = yearsBetween(tests.at(-1)!.on, asOf);
  const inclined = tests.findLast(({ kind }) => kind === 'inclining');
  const asked: Asked[] = [];
  if (carriesPassengers)
    asked.push({
      ...A749,
      words: 'a passenger ship, years since the last lightweight survey or test',
      value: years,
      limit: 5,
      unit: 'years',
      asksFor: 'lightweight survey',
      halfWidth: null,
    });
  if (lengthM >= 12 && lengthM <= 15)
    asked.push({
      clause:
        'United Kingdom, code for fishing vessels under 15 m, 2017, 3.6 (as quoted by others)',
      provenance: 'seen',
      words: 'recommended for 12 to 15 m: years since the lightship was last checked',
      value: years,
      limit: 5,
      unit: 'years',
      asksFor: 'lightweight survey',
      halfWidth: null,
    });
  if (inclined !== undefined)
    asked.push({
      clause: 'Torremolinos Protocol, as the European Union applies it in the north (from memory)',
      provenance: 'from-memory',
      words: 'fishing vessels: years since she was last inclined',
      value: yearsBetween(inclined.on, asOf),
      limit: 10,
      unit: 'years',
      asksFor: 'inclining test',
      halfWidth: null,
    });
  return asked;
}
