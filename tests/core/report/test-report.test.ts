import { describe, expect, it } from 'vitest';
import { testReport } from '#core/report/test-report.ts';
import { handCheck } from '#core/session/hand-check.ts';
import type { SessionState } from '#core/session/session.ts';
import { aDay, withVoided } from '#tests/core/session/a-day.ts';
import { reportedDayOf } from '#tests/support/reported-day.ts';
import { aSurveyedDay } from '#tests/support/surveyed-day.ts';

const report = (session: SessionState) => {
  const day = reportedDayOf(session);
  return { day, document: testReport(day, handCheck(session), []) };
};

/** Every number of a value as JSON would hold it, in its unit, in thousandths and in hundredths. */
function numbersIn(value: unknown, into: number[] = []): number[] {
  if (typeof value === 'number') into.push(value, 1000 * value, 100 * value);
  else if (typeof value === 'string')
    for (const text of value.match(/\d+(?:\.\d+)?/g) ?? []) into.push(Number(text));
  else if (Array.isArray(value)) {
    into.push(value.length);
    for (const each of value) numbersIn(each, into);
  } else if (typeof value === 'object' && value !== null)
    for (const each of Object.values(value)) numbersIn(each, into);
  return into;
}

/** Is the printed figure one of these, rounded to the place it is printed to? */
function isOneOf(printed: string, sorted: Float64Array): boolean {
  const value = Number(printed.replace('\u2212', '-'));
  const decimals = /\.(\d+)$/.exec(printed)?.[1]?.length ?? 0;
  const trailing = decimals === 0 ? (/[1-9](0*)$/.exec(printed)?.[1]?.length ?? 0) : 0;
  const half = 0.500001 * 10 ** (trailing - decimals);
  return sorted.some((one) => Math.abs(one - value) <= half || Math.abs(one + value) <= half);
}

describe('the report of a test', () => {
  it('holds no figure in a table that the record does not hold', () => {
    const session = withVoided(
      aSurveyedDay({ stateDeg: 0.006, readingDeg: 0.003, metacentreMovementM: 0.9 }),
      4,
    );
    const { day, document } = report(session);
    const check = handCheck(session)!;
    const derived = [
      check,
      check.rows.map(({ momentTM, tangent }) => [momentTM ** 2, momentTM * tangent]),
      // Half widths of the readings: 12 degrees of freedom, t = 2.1788 (any table).
      0.006 * 2.1788,
      0.005 * 2.1788,
      // Zero returns of the instruments against themselves, less the median of them.
      day.session.states[0]!.reading!.instruments.map(({ instrument, heelDeg }) => {
        const last = day.session.states[8]!.reading!.instruments;
        const own = last.find((one) => one.instrument === instrument)!.heelDeg - heelDeg;
        const all = last.map(
          (one, k) => one.heelDeg - day.session.states[0]!.reading!.instruments[k]!.heelDeg,
        );
        return own - all.toSorted((a, b) => a - b)[1]!;
      }),
      Math.hypot(0.006, 0.006),
    ];
    const known = Float64Array.from(numbersIn([day, derived]));
    const unknown = document.blocks.flatMap((block) => {
      const cells =
        block.kind === 'table'
          ? block.rows.flatMap(({ cells: texts }) => texts)
          : block.kind === 'facts'
            ? block.rows.map(([, text]) => text)
            : [];
      return cells
        .filter((text) => /^\u2212?\+?\d/.test(text) && !/IS Code|A\.749|UTC/.test(text))
        .flatMap((text) => text.match(/\u2212?\d+(?:\.\d+)?/g) ?? [])
        .filter((printed) => !isOneOf(printed, known));
    });
    expect(unknown).toEqual([]);
  });

  it('finds a figure that is not the record’s: the walk can fail', () => {
    const known = Float64Array.from(numbersIn({ gm: 0.94596 }));
    expect(isOneOf('0.9460', known)).toBe(true);
    expect(isOneOf('0.9461', known)).toBe(false);
  });

  it('has its parts in order and marks on it', () => {
    const { document } = report(aDay());
    const heads = document.blocks.flatMap((block) =>
      block.kind === 'heading' && block.level === 1 ? [block.text] : [],
    );
    expect(heads).toEqual([
      'Result',
      'The plot',
      'Notification and conditions',
      'States and readings',
      'What was not used, and why',
      'Vessel, weights and shifts',
      'Freeboards, water and hydrostatics',
      'Survey and lightship',
      'Instruments',
      'Roll period',
      'Deviations',
      'People, remarks and signatures',
      'Check by hand',
      'Appendix: traces of the accepted readings',
    ]);
    expect(document.marks).toContain('Unsigned');
    expect(document.subject).toBe('Marram, Kettle Sound, 2026-05-04');
    expect(document.wall).toBe('2026-05-04T16:00:00.000Z');
  });

  it('is written of a day in which nothing happened', () => {
    const { document } = report({
      ...aDay({ states: 1 }),
      test: null,
      testOpened: null,
      states: [],
    });
    expect(document.blocks.length).toBeGreaterThan(20);
  });
});
