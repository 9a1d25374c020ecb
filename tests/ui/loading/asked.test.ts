import { expect, it } from 'vitest';
import { changeOf, doingWords, EMPTY_PLACE, wrongNumber } from '../../../ui/loading/asked.ts';

const at = { xM: '6', yM: '0', zM: '2,5' };
const asked = { act: 'add', what: ' rope bags ', massT: '1.2', at, to: EMPTY_PLACE } as const;

it('a question is asked once every field of it is a number', () => {
  expect(changeOf(asked)).toEqual({
    act: 'add',
    what: 'rope bags',
    massT: 1.2,
    at: { xM: 6, yM: 0, zM: 2.5 },
  });
  expect(changeOf({ ...asked, massT: '' })).toBeNull();
  expect(changeOf({ ...asked, massT: '-1' })).toBeNull();
  expect(changeOf({ ...asked, at: { ...at, zM: 'high' } })).toBeNull();
  expect(changeOf({ ...asked, act: 'move' })).toBeNull();
  expect(changeOf({ ...asked, act: 'move', what: '', to: at })).toMatchObject({
    act: 'move',
    what: 'what is asked about',
    to: { xM: 6 },
  });
  expect(doingWords('move')).toBe('moved so');
});

it('a field is wrong only once something stands in it that is no number', () => {
  expect(['', ' ', '2,4', 'far'].map(wrongNumber)).toEqual(['', '', '', 'no number']);
});
