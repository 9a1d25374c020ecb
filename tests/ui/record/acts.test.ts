import { describe, expect, it } from 'vitest';
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
    ]);
    expect(acts.filter((act) => act.struck).map((act) => act.words)).toEqual(['Reading 2 taken']);
    expect(acts[0]!.written.author).toBe('R. Sole');
  });
});
