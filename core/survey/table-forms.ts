import type { z } from 'zod';
import { Fault } from '../fault/fault.ts';
import { ITEM_KINDS, surveyItem } from './survey-input.ts';
import type { ColumnForm } from './table-columns.ts';
import type { ImportedFields, RowRefusal, TableForm } from './table-import.ts';
import { tankShapeFrom, tankShapeInput } from './tank-shape-input.ts';

const column = (
  field: string,
  unit: ColumnForm['unit'],
  names: readonly string[],
  needed = true,
): ColumnForm => ({ field, unit, needed, names: [field.toLowerCase(), ...names] });

const PLACE = [
  column('xM', 'm', ['x', 'lcg', 'centre x', 'cg x', 'centre lcg', 'cg lcg']),
  column('yM', 'm', ['y', 'tcg', 'centre y', 'cg y', 'centre tcg', 'cg tcg']),
  column('zM', 'm', ['z', 'vcg', 'kg', 'centre z', 'cg z', 'centre vcg', 'cg vcg']),
];
const MASS = [
  column('massT', 't', ['mass', 'weight mass', 'm']),
  column('massUncertaintyT', 't', ['mass uncertainty', '±', 'uncertainty', '± mass']),
];

/** Things of the survey: item, kind, mass, place, note. */
export const ITEMS_TABLE: TableForm<z.infer<typeof surveyItem>> = {
  columns: [
    column('item', 'text', ['thing', 'name', 'description']),
    column('kind', 'text', ['what', 'add or deduct']),
    ...MASS,
    ...PLACE,
    column('placeUncertaintyM', 'm', ['place uncertainty', '± place']),
    column('note', 'text', ['remark', 'remarks', 'notes'], false),
  ],
  value: (fields) => {
    const { note, kind, item, massT, massUncertaintyT, placeUncertaintyM } = fields;
    const found = {
      ...{ item, massT, massUncertaintyT, placeUncertaintyM, photographLine: null },
      kind: String(kind).toLowerCase().replaceAll(' ', '-'),
      at: placeOf(fields),
      ...(note == null ? {} : { note }),
    };
    if (!(ITEM_KINDS as readonly string[]).includes(found.kind))
      return { field: 'kind', reason: `"${kind}" is none of ${ITEM_KINDS.join(', ')}` };
    return checked(surveyItem, found);
  },
};

/** A weight of the test with where it stands first. */
export interface ImportedWeight {
  readonly weight: string;
  readonly massT: number;
  readonly massUncertaintyT: number;
  readonly certificate: string;
  readonly at: { readonly xM: number; readonly yM: number; readonly zM: number };
}

export const WEIGHTS_TABLE: TableForm<ImportedWeight> = {
  columns: [
    column('weight', 'text', ['name', 'no', 'number', 'mark']),
    ...MASS,
    column('certificate', 'text', ['certificate no', 'weighing'], false),
    ...PLACE,
  ],
  value: (fields) => {
    const massT = Number(fields['massT']);
    const massUncertaintyT = Number(fields['massUncertaintyT']);
    if (!(massT > 0)) return { field: 'massT', reason: 'a mass is over zero' };
    if (!(massUncertaintyT >= 0))
      return { field: 'massUncertaintyT', reason: 'an uncertainty is not under zero' };
    const weight = String(fields['weight']);
    if (weight.length > 64) return { field: 'weight', reason: 'over 64 characters' };
    const certificate = fields['certificate'] == null ? '' : String(fields['certificate']);
    return { taken: { weight, massT, massUncertaintyT, certificate, at: placeOf(fields) } };
  },
};

/** A tank or space as a box, with what is in it. */
export interface ImportedTank {
  readonly tank: string;
  readonly densityTM3: number;
  readonly shape: z.infer<typeof tankShapeInput>;
  /** Null: not said. */
  readonly volumeM3: number | null;
}

export const TANKS_TABLE: TableForm<ImportedTank> = {
  columns: [
    column('tank', 'text', ['space', 'name']),
    column('densityTM3', 't/m3', ['density']),
    ...(['X', 'Y', 'Z'] as const).flatMap((axis) => [
      column(`from${axis}M`, 'm', [`from ${axis.toLowerCase()}`, `${axis.toLowerCase()} from`]),
      column(`to${axis}M`, 'm', [`to ${axis.toLowerCase()}`, `${axis.toLowerCase()} to`]),
    ]),
    column('volumeM3', 'm3', ['volume', 'contents'], false),
  ],
  value: (fields) => {
    const { tank, densityTM3, volumeM3, fromXM, toXM, fromYM, toYM, fromZM, toZM } = fields;
    const box = { kind: 'rectangular', fromXM, toXM, fromYM, toYM, fromZM, toZM };
    const shape = checked(tankShapeInput, box);
    if ('reason' in shape) return shape;
    try {
      tankShapeFrom(shape.taken);
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      return { field: 'shape', reason: error.report.found };
    }
    if (!(Number(densityTM3) > 0 && Number(densityTM3) <= 3))
      return { field: 'densityTM3', reason: `${densityTM3} t/m3` };
    if (volumeM3 != null && !(Number(volumeM3) >= 0))
      return { field: 'volumeM3', reason: `${volumeM3} m3` };
    return {
      taken: {
        ...{ tank: String(tank), densityTM3: Number(densityTM3), shape: shape.taken },
        volumeM3: volumeM3 == null ? null : Number(volumeM3),
      },
    };
  },
};

/** A row of numbers as the readers of hulls and tables want it: offsets, or hydrostatics by draught. */
export type NumberRow = Readonly<Record<string, number>>;

const numbersOnly = (columns: readonly ColumnForm[]): TableForm<NumberRow> => ({
  columns,
  value: (fields) => ({
    taken: Object.fromEntries(
      columns.flatMap(({ field }) =>
        fields[field] == null ? [] : [[field, Number(fields[field])] as const],
      ),
    ),
  }),
});

export const OFFSETS_TABLE = numbersOnly([
  column('xM', 'm', ['x', 'station', 'station x']),
  column('zM', 'm', ['z', 'height', 'waterline', 'height over baseline']),
  column('halfBreadthM', 'm', ['half breadth', 'half-breadth', 'y']),
]);

export const HYDROSTATICS_TABLE = numbersOnly([
  column('draughtM', 'm', ['draught', 'draft']),
  column('displacementT', 't', ['displacement', 'disp']),
  column('lcbM', 'm', ['lcb']),
  column('kmTransverseM', 'm', ['kmt', 'km', 'km transverse', 'transverse km']),
  column('kbM', 'm', ['kb', 'vcb']),
  column('trimM', 'm', ['trim'], false),
]);

function placeOf({ xM, yM, zM }: ImportedFields) {
  return { xM: Number(xM), yM: Number(yM), zM: Number(zM) };
}

function checked<S extends z.ZodType>(
  schema: S,
  value: unknown,
): { readonly taken: z.infer<S> } | RowRefusal {
  const found = schema.safeParse(value);
  if (found.success) return { taken: found.data };
  const issue = found.error.issues[0];
  return {
    field: issue?.path.map(String).join('.') || 'row',
    reason: issue?.message ?? 'not of the form',
  };
}
