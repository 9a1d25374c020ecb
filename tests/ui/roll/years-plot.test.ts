import { describe, expect, it } from 'vitest';
import { rollOverYears } from '#core/reduction/roll-history.ts';
import { EARLIER_ROLL } from '#tests/support/roll-run-body.ts';
import { yearsPlot } from '../../../ui/roll/years-plot.ts';

const years = rollOverYears({
  vessel: 'Marram',
  tests: [
    EARLIER_ROLL,
    { ...EARLIER_ROLL, date: '2021-05-02', condition: 'loaded', periodS: 5.2 },
    { ...EARLIER_ROLL, date: '2027-05-02', periodS: 5 },
  ],
});

describe('the plot of her periods over the years', () => {
  it('stands later tests further right by their time, and longer periods higher', () => {
    const { marks } = yearsPlot(years);
    const [first, second, third] = marks;
    expect((second!.x - first!.x) / (third!.x - first!.x)).toBeCloseTo(2 / 8, 3);
    expect(second!.y).toBeLessThan(third!.y);
    expect(third!.y).toBeLessThan(first!.y);
    expect((first!.y - third!.y) / (first!.y - second!.y)).toBeCloseTo(0.5, 9);
    expect(marks.map(({ filled }) => filled)).toEqual([true, false, true]);
    for (const { top, bottom, x } of marks) {
      for (const share of [top, bottom, x]) expect(share > 0 && share < 1).toBe(true);
      expect(top).toBeLessThan(bottom);
    }
  });

  it('has its ticks inside, at round periods and at most eight years', () => {
    const { periodTicks, yearTicks, decimals } = yearsPlot(years);
    expect(periodTicks.length).toBeGreaterThan(2);
    for (const { periodS, y } of periodTicks) {
      expect(Number(periodS.toFixed(decimals))).toBeCloseTo(periodS, 9);
      expect(y >= 0 && y <= 1).toBe(true);
    }
    expect(yearTicks.map(({ year }) => year)).toEqual([
      2020, 2021, 2022, 2023, 2024, 2025, 2026, 2027,
    ]);
  });

  it('names every second year or fewer of a long life', () => {
    const tests = [EARLIER_ROLL, { ...EARLIER_ROLL, date: '1990-05-02' }];
    const { yearTicks } = yearsPlot(rollOverYears({ vessel: 'Marram', tests }));
    expect(yearTicks.map(({ year }) => year)).toEqual([1992, 1996, 2000, 2004, 2008, 2012, 2016]);
  });

  it('of one test is a plot too', () => {
    const one = yearsPlot(rollOverYears({ vessel: 'Marram', tests: [EARLIER_ROLL] }));
    expect(one.marks).toHaveLength(1);
    expect(one.marks[0]!.y).toBeCloseTo(0.5, 9);
  });
});
