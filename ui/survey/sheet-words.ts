import type { DAY_CHECKS, EntrySheet, STATEMENTS } from '#core/record/entry-line.ts';
import type { SurveyEntry } from '#core/session/survey-state.ts';
import type { LIGHTSHIP_MATTERS, SurveyItem } from '#core/survey/survey-input.ts';
import { fixed } from '../show/figure.ts';

/** The sheets of the survey and what stands in them, in the words of the trade. */
export const SHEET_WORDS: Readonly<Record<EntrySheet, string>> = {
  vessel: 'Length and reading errors',
  hull: 'Hull',
  choices: 'How the test is reduced',
  freeboard: 'Freeboard',
  mark: 'Draught mark',
  water: 'Water',
  tank: 'Tank',
  item: 'Aboard',
  space: 'Space',
  matter: 'Lightship',
  agreed: 'Agreed',
  weight: 'Weight',
  distance: 'Distance',
  zero: 'Zero',
  check: 'Looked at',
  statement: 'For the report',
};

export const ITEM_KIND_WORDS: Readonly<
  Record<SurveyItem['kind'], { readonly short: string; readonly long: string }>
> = {
  deduct: { short: 'off', long: 'Not hers: taken off' },
  add: { short: 'on', long: 'Hers and missing: put on' },
  relocate: { short: 'moved', long: 'Hers, not at its place: moved' },
  'to-be-fitted': { short: 'to fit', long: 'Still to be fitted: result provisional' },
  person: { short: 'person', long: 'Person: taken off' },
  'own-gear': { short: 'our gear', long: 'Our own gear: taken off' },
  'test-weight': { short: 'test weight', long: 'Test weight: taken off' },
  liquid: { short: 'liquid', long: 'Liquid outside the tanks listed: taken off' },
};

export const MATTER_WORDS: Readonly<Record<(typeof LIGHTSHIP_MATTERS)[number], string>> = {
  'fluids-in-systems': 'Fluids in engines and systems',
  'permanent-ballast': 'Permanent ballast',
  spares: 'Spares and tools',
  'live-well': 'Water in the live-well',
  'anchor-and-chain': 'Anchors and chain',
  'fishing-gear': 'Fishing gear',
  'safety-equipment': 'Rafts and safety equipment',
  'trapped-water': 'Water that cannot be drained',
};

export const AGREED_WORDS = {
  in: 'in the lightship',
  out: 'not in it',
  'not-there': 'she has none',
  open: 'open',
} as const;

export const CHECK_WORDS: Readonly<Record<(typeof DAY_CHECKS)[number], string>> = {
  'lines-slack': 'Lines slack, she swings free',
  'clear-of-fenders': 'Clear of fenders and quay, through all heels',
  depth: 'Water under the keel at lowest tide and largest heel',
  'gangway-off': 'Gangway off',
  'decks-dry': 'Decks dry, scuppers clear, bilges pumped',
  'loose-gear-secured': 'Loose gear secured, derricks and doors fast',
  'cross-connections-shut': 'Cross connections of tanks shut',
  'people-told-off': 'Each person has a station, nobody else aboard',
  'free-swing': 'Free swing tried: she rolls and comes to rest',
};

export const STATEMENT_WORDS: Readonly<Record<(typeof STATEMENTS)[number], string>> = {
  owner: 'Owner, and who stands for them',
  authority: 'Authority, and its witness',
  responsible: 'Responsible for the test',
  place: 'Place and berth',
  mooring: 'How she is moored',
  wind: 'Wind, from where to her heading',
  current: 'Current and tide',
  depth: 'Depth under the keel',
  weather: 'Weather',
  'weight-handling': 'How the weights are moved',
  'variances-accepted': 'Departures accepted beforehand',
  'authority-comments': 'Comments of the authority',
};

/** What a row is called: its sheet, and its own name where it has one. */
export function rowName({ sheet, key }: SurveyEntry): string {
  const named: Readonly<Record<string, string>> | undefined = {
    matter: MATTER_WORDS,
    check: CHECK_WORDS,
    statement: STATEMENT_WORDS,
  }[sheet as string];
  if (named !== undefined) return named[key] ?? key;
  return key === sheet ? SHEET_WORDS[sheet] : `${SHEET_WORDS[sheet]} ${key}`;
}

const metres = (value: number) => `${fixed(value, 3)} m`;
const placeWords = ({ xM, yM, zM }: { xM: number; yM: number; zM: number }) =>
  `${fixed(xM, 2)} forward, ${fixed(Math.abs(yM), 2)} ${yM < 0 ? 'port' : 'starboard'}, ${fixed(zM, 2)} up`;

/** A row in one sentence, for who sees what stands there now, and for the list of acts. */
export function entryWords(entry: SurveyEntry): string {
  switch (entry.sheet) {
    case 'vessel':
      return `length between perpendiculars ${metres(entry.value.lengthM)}`;
    case 'hull':
      return `${entry.value.form} of ${entry.value.file}`;
    case 'choices':
      return entry.value.official ?? 'as the most exact answer there is';
    case 'freeboard':
      return `${metres(entry.value.freeboardM)} at ${fixed(entry.value.xM, 2)} m, ${entry.value.side}`;
    case 'mark':
      return `${metres(entry.value.draughtM)} at ${fixed(entry.value.xM, 2)} m, ${entry.value.side}`;
    case 'water':
      return `${fixed(entry.value.densityKgM3, 1)} kg/m³${entry.value.temperatureC === null ? '' : ` at ${fixed(entry.value.temperatureC, 1)} °C`}`;
    case 'tank':
      return entry.value.sounding === undefined
        ? `${fixed(entry.value.volumeM3 ?? 0, 3)} m³`
        : `sounded ${metres(entry.value.sounding.depthM)}`;
    case 'item':
      return `${ITEM_KIND_WORDS[entry.value.kind].short}, ${fixed(entry.value.massT, 3)} t, ${placeWords(entry.value.at)}`;
    case 'space':
      return `${entry.value.sounded ? 'sounded' : 'not sounded'}, ${entry.value.opened ? 'opened and seen' : 'not opened'}${entry.value.by === undefined ? '' : `, ${entry.value.by}`}`;
    case 'matter':
      return AGREED_WORDS[entry.value.agreed];
    case 'agreed':
      return entry.value.as;
    case 'weight':
      return `${fixed(entry.value.massT, 4)} t by ${entry.value.by}`;
    case 'distance':
      return `${metres(entry.value.distanceM)} by ${entry.value.by}`;
    case 'zero':
      return `${fixed(entry.value.zeroDeg, 4)}°`;
    case 'check':
      return `${entry.value.holds ? 'holds' : 'does not hold'}${entry.value.note === '' ? '' : `: ${entry.value.note}`}`;
    case 'statement':
      return entry.value.text;
  }
}
