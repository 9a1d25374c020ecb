import type { EntryForm, FormField } from './entry-form.ts';
import { ITEM_KIND_WORDS } from './sheet-words.ts';

/** Every form of the survey that is typed. Lengths in metres unless a unit is typed behind them. */
const length = (path: string, label: string, more: Partial<FormField> = {}): FormField => ({
  path,
  label,
  unit: 'm',
  kind: 'length',
  ...more,
});
const number = (path: string, label: string, unit: string, more: Partial<FormField> = {}) =>
  ({ path, label, unit, kind: 'number', ...more }) satisfies FormField;
const words = (path: string, label: string, more: Partial<FormField> = {}): FormField => ({
  path,
  label,
  kind: 'words',
  ...more,
});

const FORWARD = 'Forward of the after perpendicular';
const placed = (path: string): FormField[] => [
  length(`${path}.xM`, FORWARD),
  length(`${path}.yM`, 'To starboard of the centreline', { hint: 'to port: with a minus' }),
  length(`${path}.zM`, 'Over the baseline'),
];

const SIDES = [
  { value: 'port', words: 'Port' },
  { value: 'starboard', words: 'Starboard' },
];

const VESSEL: EntryForm = {
  sheet: 'vessel',
  title: 'Her length, and how well things are read',
  keyLabel: null,
  fields: [
    length('lengthM', 'Length between perpendiculars'),
    length('readingUncertaintyM', 'One freeboard or mark is read to ±, one standard uncertainty', {
      empty: 'left-out',
      hint: 'left empty: their scatter speaks',
    }),
    length('freeboardDatumUncertaintyM', 'Heights of all freeboard points together, ±', {
      empty: 'left-out',
    }),
    length('markDatumUncertaintyM', 'Zero of all draught marks, ±', { empty: 'left-out' }),
    number('hydrometerUncertaintyKgM3', 'Hydrometer, ±', 'kg/m³'),
    number('freeSurfaceUncertaintyShare', 'Each free surface, ± as a share', '', {
      hint: 'shape, density, sounding; 0.05 is 5 %',
    }),
  ],
};

const FREEBOARD: EntryForm = {
  sheet: 'freeboard',
  title: 'Freeboard',
  keyLabel: 'Point',
  fields: [
    { path: 'side', label: 'Side', kind: 'choice', options: SIDES },
    length('freeboardM', 'Freeboard, plumb from the point down to the water'),
    length('xM', FORWARD),
    length('halfBreadthM', 'Point from the centreline'),
    length('heightM', 'Point over the baseline'),
  ],
};

const MARK: EntryForm = {
  sheet: 'mark',
  title: 'Draught mark',
  keyLabel: 'Mark',
  fields: [
    {
      path: 'side',
      label: 'Side',
      kind: 'choice',
      options: [...SIDES, { value: 'centre', words: 'On the centreline' }],
    },
    length('draughtM', 'Draught read'),
    length('xM', FORWARD),
    length('halfBreadthM', 'Mark from the centreline'),
    length('zeroHeightM', 'Its zero over the baseline', { hint: 'below the baseline: a minus' }),
  ],
};

const WATER: EntryForm = {
  sheet: 'water',
  title: 'Density of the water',
  keyLabel: 'Where, and how deep',
  fields: [
    number('densityKgM3', 'Density', 'kg/m³', {
      hint: 'as read in the sample, not reduced to 15 °C',
    }),
    number('temperatureC', 'Temperature of the sample', '°C', { empty: 'null' }),
  ],
};

const TANK: EntryForm = {
  sheet: 'tank',
  title: 'Tank',
  keyLabel: 'Tank',
  constant: { shape: { kind: 'rectangular' } },
  fields: [
    number('densityTM3', 'Density of what is in it', 't/m³'),
    length('shape.fromXM', 'From, forward of the after perpendicular'),
    length('shape.toXM', 'To, forward'),
    length('shape.fromYM', 'From, to starboard', { hint: 'to port: with a minus' }),
    length('shape.toYM', 'To, to starboard'),
    length('shape.fromZM', 'From, over the baseline'),
    length('shape.toZM', 'To, over the baseline'),
    {
      path: 'ask.by',
      label: 'What is in it is known by',
      kind: 'choice',
      options: [
        { value: 'sounding', words: 'a sounding' },
        { value: 'volume', words: 'its volume' },
      ],
    },
    number('volumeM3', 'Volume', 'm³', { when: (typed) => typed['ask.by'] === 'volume' }),
    length('sounding.depthM', 'Sounding', { when: (typed) => typed['ask.by'] === 'sounding' }),
    ...placed('sounding').map((field) => ({
      ...field,
      label: `Striking place: ${field.label.toLowerCase()}`,
      when: (typed: Readonly<Record<string, string>>) => typed['ask.by'] === 'sounding',
    })),
    number('massUncertaintyT', 'Mass of what is in it, ±', 't', { empty: 'left-out' }),
    { path: 'partOfLightship', label: 'Left in the lightship, as agreed', kind: 'flag' },
  ],
  asked: (value) => ({ 'ask.by': 'volumeM3' in value ? 'volume' : 'sounding' }),
};

const massAndPlace: readonly FormField[] = [
  number('massT', 'Mass', 't'),
  number('massUncertaintyT', 'Mass, ±', 't'),
  ...placed('at'),
  length('placeUncertaintyM', 'Each coordinate, ±'),
];

const ITEM: EntryForm = {
  sheet: 'item',
  title: 'Thing aboard',
  keyLabel: 'What',
  fields: [
    {
      path: 'kind',
      label: 'What is done with it',
      kind: 'choice',
      options: Object.entries(ITEM_KIND_WORDS)
        .filter(([value]) => value !== 'person')
        .map(([value, said]) => ({ value, words: said.long })),
    },
    ...massAndPlace,
    ...placed('to').map((field) => ({
      ...field,
      label: `Goes to: ${field.label.toLowerCase()}`,
      when: (typed: Readonly<Record<string, string>>) => typed['kind'] === 'relocate',
    })),
    words('note', 'Note', { empty: 'left-out', wide: true }),
  ],
};

const PERSON: EntryForm = {
  sheet: 'item',
  title: 'Person aboard',
  keyLabel: 'Who, or which part they have',
  constant: { kind: 'person' },
  fields: [words('note', 'Station', { empty: 'left-out', wide: true }), ...massAndPlace],
};

const SPACE: EntryForm = {
  sheet: 'space',
  title: 'Space looked into',
  keyLabel: 'Tank, bilge or void',
  fields: [
    { path: 'opened', label: 'Opened and seen with the eye', kind: 'flag' },
    { path: 'sounded', label: 'Sounded', kind: 'flag' },
    words('by', 'Who looked', { empty: 'left-out' }),
  ],
};

const AGREED: EntryForm = {
  sheet: 'agreed',
  title: 'Who agreed',
  keyLabel: 'Name, or part they have',
  fields: [words('as', 'For whom', { hint: 'owner, authority, yard' })],
};

const WEIGHT: EntryForm = {
  sheet: 'weight',
  title: 'Mass, by a second person',
  keyLabel: null,
  fields: [number('massT', 'Mass', 't'), words('by', 'Read by')],
};

const DISTANCE: EntryForm = {
  sheet: 'distance',
  title: 'Distance, by a second person',
  keyLabel: null,
  fields: [
    number('state', 'Shift', '', { given: true }),
    words('weight', 'Weight', { given: true }),
    length('distanceM', 'Distance moved, to starboard', { hint: 'to port: with a minus' }),
    words('by', 'Measured by'),
  ],
};

const ZERO: EntryForm = {
  sheet: 'zero',
  title: 'Zero of a sensor',
  keyLabel: null,
  fields: [
    number('zeroDeg', 'Shown on its own zero', '°', {
      hint: 'turned about on its plate, half the sum of both; to starboard positive',
    }),
  ],
};

const CHECK: EntryForm = {
  sheet: 'check',
  title: 'Looked at',
  keyLabel: null,
  fields: [
    { path: 'holds', label: 'It holds', kind: 'flag' },
    words('note', 'Note', { empty: 'no-words', wide: true }),
  ],
};

const STATEMENT: EntryForm = {
  sheet: 'statement',
  title: 'For the report',
  keyLabel: null,
  fields: [words('text', 'In words', { wide: true })],
};

export const FORMS = {
  vessel: VESSEL,
  freeboard: FREEBOARD,
  mark: MARK,
  water: WATER,
  tank: TANK,
  item: ITEM,
  person: PERSON,
  space: SPACE,
  agreed: AGREED,
  weight: WEIGHT,
  distance: DISTANCE,
  zero: ZERO,
  check: CHECK,
  statement: STATEMENT,
} as const;
export type FormName = keyof typeof FORMS;

/** The form a row is opened in; a tank drawn by sections keeps its shape. */
export function formOf(name: FormName, value: object | null): EntryForm {
  const form: EntryForm = FORMS[name];
  if (name !== 'tank' || value === null) return form;
  const { shape } = value as { readonly shape?: { readonly kind?: unknown } };
  if (shape?.kind !== 'sections') return form;
  const fields = form.fields.filter(({ path }) => !path.startsWith('shape.'));
  return { ...form, fields, constant: { shape } };
}
