import { Fault } from '../fault/fault.ts';
import type { EntryLine } from '../record/entry-line.ts';
import { checkTankShape, rectangularTank } from '../survey/tank-liquid.ts';
import { entryPlaceRefusal } from './fold-entries.ts';
import type { SessionState } from './session.ts';
import { shiftsBegun } from './shifts-begun.ts';

/**
 * Why a row cannot be entered so, or null: another row stands there than the one it was made from
 * (`entry-stale`), or what it says contradicts itself or the test (`entry-unfit`). A hull's text is
 * not read here.
 */
export function entryRefusal(session: SessionState, entry: EntryLine): Fault | null {
  const place = entryPlaceRefusal(session.survey, entry);
  if (place !== null || entry.value === null) return place;
  const found = contradiction(session, entry);
  return found === null ? null : new Fault('entry-unfit', `${entry.sheet} ${entry.key}`, found);
}

function contradiction(session: SessionState, entry: EntryLine): string | null {
  switch (entry.sheet) {
    case 'tank':
      return tankContradiction(entry);
    case 'item': {
      const relocated = entry.value?.kind === 'relocate';
      if (relocated && entry.value?.to === undefined)
        return 'a thing to be relocated needs the place it goes to';
      if (!relocated && entry.value?.to !== undefined)
        return 'only a thing to be relocated goes to another place';
      return null;
    }
    case 'weight':
      return unknownWeight(session, entry.key);
    case 'distance': {
      if (entry.value === null) return null;
      const { state, weight } = entry.value;
      const moves = movesOfShift(session, state);
      if (moves.some((move) => move.weight === weight)) return null;
      return `${weight} is not moved by shift ${state}`;
    }
    case 'zero':
      if (session.mountings.some(({ instrument }) => instrument === entry.key)) return null;
      return `no instrument ${entry.key} is mounted`;
    case 'hull': {
      if (entry.value === null) return null;
      const { form, densityKgM3, knText, spots } = entry.value;
      if (form === 'tables' && spots !== undefined)
        return 'spot checks are held to lines, and tables are none';
      if (form === 'tables' && densityKgM3 === null)
        return 'tables need the density their displacements are stated for';
      if (form !== 'tables' && (densityKgM3 !== null || knText !== null))
        return 'density and KN belong to tables only';
      return null;
    }
    default:
      return null;
  }
}

/** Of shift n as it was begun, else as it is planned; a resumed day has states no shift led to. */
function movesOfShift({ states, test }: SessionState, shift: number) {
  const begun = shiftsBegun(states)[shift - 1];
  return begun?.moves ?? test?.plan[shift - 1]?.moves ?? [];
}

function unknownWeight({ test }: SessionState, weight: string): string | null {
  if (test === null || test.weights.some((one) => one.weight === weight)) return null;
  return `no weight of the test is called ${weight}`;
}

function tankContradiction({ value }: Extract<EntryLine, { sheet: 'tank' }>): string | null {
  if (value === null) return null;
  if ((value.volumeM3 === undefined) === (value.sounding === undefined))
    return 'give either a volume or a sounding';
  try {
    if (value.shape.kind === 'sections') checkTankShape({ sections: value.shape.sections });
    else rectangularTank(value.shape);
    return null;
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    return `${error.report.where}: ${error.report.found}`;
  }
}
