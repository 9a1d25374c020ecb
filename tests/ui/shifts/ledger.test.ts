import { describe, expect, it } from 'vitest';
import { ledgerOf } from '#ui/shifts/ledger.ts';
import { FakeDay } from '../../support/fake-day.ts';

const twice = (standardErrorDeg: number) => 2 * standardErrorDeg;
const told = (day: FakeDay) =>
  ledgerOf(day.session, null, twice).map((row) => `${row.kind} ${row.state} ${row.moved}`);

describe('the ledger', () => {
  it('begins with the zero live and the whole plan in pencil', () => {
    expect(told(new FakeDay())).toEqual([
      'live 0 all at marks',
      'plan 1 A to starboard',
      'plan 2 B to starboard',
      'plan 3 B to port',
      'plan 4 A to port',
      'plan 5 C to port',
      'plan 6 D to port',
      'plan 7 D to starboard',
      'plan 8 C to starboard',
    ]);
  });

  it('keeps a voided reading over the one that took its place, with reason and name', () => {
    const day = new FakeDay();
    day.goOn(2);
    const rows = ledgerOf(day.session, null, twice);
    expect(rows.slice(0, 4).map((row) => `${row.kind} ${row.state}`)).toEqual([
      'read 0',
      'read 1',
      'voided 2',
      'read 2',
    ]);
    expect(rows[2]!.note).toBe('Line touched (E. Thorne)');
    expect(rows[3]!.seen!.halfWidthDeg).toBe(0.006);
  });

  it('puts what the witness asks beside the reading it is about, until and with its answer', () => {
    const day = new FakeDay();
    day.goOn(2);
    const [first] = ledgerOf(day.session, null, twice);
    day.write(
      'witness-asked',
      { what: 'objection', text: 'A line was tight.', line: first!.line },
      'witness',
    );
    const asked = day.session.people.asks[0]!.written.line;
    const [row, other] = ledgerOf(day.session, null, twice);
    expect(row!.asks.map(({ text, answers }) => [text, answers.length])).toEqual([
      ['A line was tight.', 0],
    ]);
    expect(other!.asks).toEqual([]);
    day.write('witness-answered', { line: asked, text: 'Slackened.' }, 'architect');
    expect(ledgerOf(day.session, null, twice)[0]!.asks[0]!.answers[0]!.text).toBe('Slackened.');
  });

  it('counts planned moments from where the weights will stand', () => {
    const day = new FakeDay();
    day.goOn(1);
    const plan = ledgerOf(day.session, null, twice).filter((row) => row.kind === 'plan');
    const moments = plan.map((row) => Number(row.momentTM!.toFixed(3)));
    expect(moments).toEqual([2.108, 1.054, 0, -1.054, -2.108, -1.054, 0]);
  });

  it('shows the weights under way as moved in what follows them', () => {
    const day = new FakeDay();
    day.goOn(0);
    day.begin('E. Thorne');
    const rows = ledgerOf(day.session, null, twice);
    expect(rows[1]).toMatchObject({ kind: 'live', state: 1, note: 'moving', seen: null });
    expect(Number(rows[2]!.momentTM!.toFixed(3))).toBe(2.108);
  });

  it('leaves no live row for a state left behind without a reading', () => {
    const day = new FakeDay();
    day.goOn(3);
    const line = day.session.states[1]!.readingWritten!.line;
    day.write('reading-voided', { line, reason: 'weight off mark' }, 'architect', 'E. Thorne');
    const first = ledgerOf(day.session, null, twice).filter((row) => row.state === 1);
    expect(first.map((row) => row.kind)).toEqual(['voided']);
  });

  it('gives a prediction the freedom of the line it came from, not of the states that stand now', () => {
    const day = new FakeDay();
    day.goOn(3);
    for (const state of [1, 2]) {
      const line = day.session.states[state]!.readingWritten!.line;
      day.write('reading-voided', { line, reason: 'weight off mark' }, 'architect', 'E. Thorne');
    }
    day.begin('E. Thorne');
    day.land('E. Thorne');
    day.read('E. Thorne');
    const freedoms: number[] = [];
    ledgerOf(day.session, null, (standardErrorDeg, freedom) => {
      if (standardErrorDeg === 0.006 || standardErrorDeg === 0.09) freedoms.push(freedom);
      return standardErrorDeg;
    });
    const infinite = Number.POSITIVE_INFINITY;
    // The first by the guess of GM, the third by a line of three states, the last once more by the
    // guess, since only two readings stand.
    expect(freedoms[0]).toBe(infinite);
    expect(freedoms).toContain(1);
    expect(freedoms.at(-1)).toBe(infinite);
  });
});
