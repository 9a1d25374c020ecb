import { describe, expect, it } from 'vitest';
import { aDay } from '#tests/core/session/a-day.ts';
import { ROLL_RUN } from '#tests/support/roll-run-body.ts';
import { actsOf } from '#ui/record/acts.ts';
import { FakeDay } from '../../support/fake-day.ts';

describe('the list of acts', () => {
  it('tells every human act once, newest first, and strikes what was voided', () => {
    const day = new FakeDay();
    day.goOn(2);
    day.write('remark', { text: 'Tug passing', line: null }, 'witness', 'R. Sole');
    const acts = actsOf(day.session);
    expect(acts.map((act) => act.words)).toEqual([
      'Remark: Tug passing',
      'Reading 2 taken',
      expect.stringMatching(/^Reading 2 of line \d+ voided: Line touched$/),
      'Reading 2 taken',
      'Weight down, shift 2',
      'Shift 2 begun: B to starboard',
      'Reading 1 taken',
      'Weight down, shift 1',
      'Shift 1 begun: A to starboard',
      'Reading 0 taken',
      'Test opened: Marram, Kettle Sound, inner quay',
    ]);
    expect(acts.filter((act) => act.struck).map((act) => act.words)).toEqual(['Reading 2 taken']);
    expect(acts[0]!.written.author).toBe('R. Sole');
  });

  it('tells what was put right, and strikes what fell away', () => {
    const day = new FakeDay();
    day.goOn(1);
    const at = day.session.lines;
    const changes = [{ field: ['weights', 0, 'massT'], was: 0.251, is: 0.26 }];
    day.write('correction', { line: 1, changes, reason: 'wrong slip' }, 'architect');
    const told = () => actsOf(day.session).slice(0, 2);
    expect(told()[0]).toMatchObject({
      words: 'Line 1 put right: weight A, mass, t: was 0.251, is 0.26. wrong slip',
      struck: false,
    });
    day.write('overruled', { line: at, reason: 'it was right' }, 'architect');
    expect(told().map(({ words, struck }) => [words, struck])).toEqual([
      [
        `Correction of line ${at} fell away: weight A, mass, t: was 0.26, is 0.251. it was right`,
        false,
      ],
      ['Line 1 put right: weight A, mass, t: was 0.251, is 0.26. wrong slip', true],
    ]);
  });

  it('tells runs of a roll test, and those left out struck with the reason', () => {
    const written = (line: number) => {
      return { line, wall: '', receiverS: line, author: 'E. Thorne', role: 'architect' };
    };
    const rollRuns = [
      { written: written(201), rolled: ROLL_RUN, refused: null },
      {
        written: written(202),
        rolled: ROLL_RUN,
        refused: { written: written(203), reason: 'people ran on' },
      },
    ];
    const told = actsOf({ ...aDay(), rollRuns }).filter(({ written: { line } }) => line > 200);
    expect(told.map(({ words, struck }) => [words, struck])).toEqual([
      ['Run of line 202 left out: people ran on', false],
      ['Run of free roll, 5.00 s', true],
      ['Run of free roll, 5.00 s', false],
    ]);
  });
});
