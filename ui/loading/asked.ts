import type { LoadChange } from '#core/limits/change.ts';
import { numberOf } from '../survey/typed.ts';

/** What stands in the fields, as typed. */
export interface AskedText {
  readonly act: LoadChange['act'];
  readonly what: string;
  readonly massT: string;
  readonly at: PlaceText;
  readonly to: PlaceText;
}

export interface PlaceText {
  readonly xM: string;
  readonly yM: string;
  readonly zM: string;
}

/** What is wrong with a field for a number; nothing while it is empty. */
export function wrongNumber(text: string): string {
  return text.trim() === '' || numberOf(text) !== null ? '' : 'no number';
}

export const EMPTY_PLACE: PlaceText = { xM: '', yM: '0', zM: '' };

/** The change that is asked about; null until every field of it is a number. */
export function changeOf(asked: AskedText): LoadChange | null {
  const massT = numberOf(asked.massT);
  const at = placeOf(asked.at);
  const what = asked.what.trim() === '' ? 'what is asked about' : asked.what.trim();
  if (massT === null || massT < 0 || at === null) return null;
  if (asked.act !== 'move') return { act: asked.act, what, massT, at };
  const to = placeOf(asked.to);
  return to === null ? null : { act: 'move', what, massT, at, to };
}

function placeOf(place: PlaceText): { xM: number; yM: number; zM: number } | null {
  const [xM, yM, zM] = [place.xM, place.yM, place.zM].map(numberOf);
  return xM == null || yM == null || zM == null ? null : { xM, yM, zM };
}

const DOING = { add: 'put there', remove: 'taken off there', move: 'moved so' } as const;

export function doingWords(act: LoadChange['act']): string {
  return DOING[act];
}
