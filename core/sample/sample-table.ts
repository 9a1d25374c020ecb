import { SampleRows } from './sample-rows.ts';

/** A table of samples: times and one column or more, null where a field is empty. */
export interface SampleTable {
  readonly timeS: readonly number[];
  readonly columns: readonly {
    readonly name: string;
    readonly values: readonly (number | null)[];
  }[];
}

/** A whole text of samples at once. Forms and faults as in `SampleRows`. */
export function sampleTableFromText(text: string): SampleTable {
  const timeS: number[] = [];
  let columns: { name: string; values: (number | null)[] }[] = [];
  const rows = new SampleRows({
    columns: (names) => {
      columns = names.map((name) => ({ name, values: [] }));
    },
    row: (time, values) => {
      timeS.push(time);
      values.forEach((value, k) => {
        columns[k]!.values.push(value);
      });
    },
  });
  rows.push(text);
  rows.finish();
  return { timeS, columns };
}
