import { Fault } from '#core/fault/fault.ts';
import { rowsFromFile } from './sample-file.ts';

/** One column of a file of samples: what it holds, in order of time. */
export interface FileChannel {
  readonly instrument: string;
  readonly timeS: readonly number[];
  readonly heelDeg: readonly number[];
  readonly samples: number;
  readonly missing: number;
  readonly late: number;
}

/** A fit wants all samples at once: three hours of twelve instruments at 50 Hz. */
const MOST_VALUES = 8_000_000;

/** Throws the faults of `rowsFromFile`. */
export function channelsFromFile(path: string): FileChannel[] {
  let channels: { -readonly [K in keyof FileChannel]: FileChannel[K] }[] = [];
  let columns: { timeS: number[]; heelDeg: number[] }[] = [];
  let values = 0;
  rowsFromFile(path, {
    columns: (names) => {
      columns = names.map(() => ({ timeS: [], heelDeg: [] }));
      channels = names.map((instrument, k) => {
        return { instrument, ...columns[k]!, samples: 0, missing: 0, late: 0 };
      });
    },
    row: (timeS, row, line) => {
      row.forEach((heel, k) => {
        const column = columns[k]!;
        const channel = channels[k]!;
        if (heel === null) channel.missing += 1;
        else if (timeS <= (column.timeS.at(-1) ?? Number.NEGATIVE_INFINITY)) channel.late += 1;
        else {
          column.timeS.push(timeS);
          column.heelDeg.push(heel);
          channel.samples += 1;
          values += 1;
        }
      });
      if (values > MOST_VALUES) {
        throw new Fault('input-too-large', `line ${line}`, `over ${MOST_VALUES} values`);
      }
    },
  });
  return channels;
}
