import { describe, expect, it } from 'vitest';
import {
  distanceInWords,
  headline,
  list,
  movesInWords,
  nextAct,
  nextMoves,
} from '#ui/shifts/day.ts';
import { FakeDay } from '../../support/fake-day.ts';

const at = (xM: number, yM: number, zM = 2) => ({ xM, yM, zM });

describe('the day in words', () => {
  it('names each move by its weight and its way', () => {
    expect(movesInWords([{ weight: 'D', from: at(7, 2.1), to: at(7, -2.1) }])).toBe('D to port');
    expect(
      movesInWords([
        { weight: 'A', from: at(3, -2), to: at(3, 2) },
        { weight: 'B', from: at(4, -2), to: at(4, 2) },
      ]),
    ).toBe('A and B to starboard');
    expect(movesInWords([{ weight: 'A', from: at(3, 0), to: at(5, 0) }])).toBe('A forward');
    expect(movesInWords([{ weight: 'A', from: at(3, 0, 2), to: at(3, 0, 4) }])).toBe('A up');
    expect(list(['A', 'B', 'C'])).toBe('A, B and C');
  });

  it('says one distance only when every weight goes as far', () => {
    const far = { weight: 'A', from: at(3, -2.1), to: at(3, 2.1) };
    expect(distanceInWords([far])).toBe('4.20\u00a0m');
    expect(distanceInWords([far, { ...far, weight: 'B', to: at(3, 1) }])).toBeNull();
  });

  it('asks for one act at a time, in the order of the day', () => {
    const day = new FakeDay();
    const asked = () => nextAct(day.session)?.label;
    expect(headline(day.session)).toBe('Reading 0: all weights at their marks');
    expect(asked()).toBe('Take reading 0');
    day.read('E. Thorne');
    expect(asked()).toBe('Begin shift 1');
    day.begin('E. Thorne');
    expect(asked()).toBe('Weight is down');
    expect(headline(day.session)).toBe('Shift 1: A to starboard, 4.20\u00a0m, under way');
    day.land('E. Thorne');
    expect(asked()).toBe('Take reading 1');
    expect(headline(day.session)).toBe('Reading 1: A moved to starboard, 4.20\u00a0m');
    expect(movesInWords(nextMoves(day.session)!)).toBe('B to starboard');
    day.goOn(8);
    expect(asked()).toBe('See the result');
    expect(nextMoves(day.session)).toBeNull();
    expect(nextAct(new FakeDay(false).session)).toBeNull();
  });
});
