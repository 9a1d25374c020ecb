import { type Command, Option } from 'commander';
import { Fault } from '#core/fault/fault.ts';
import { type CsvCell, csvTable } from '#core/report/csv.ts';
import {
  HYDROSTATICS_TABLE,
  ITEMS_TABLE,
  type NumberRow,
  OFFSETS_TABLE,
  TANKS_TABLE,
  WEIGHTS_TABLE,
} from '#core/survey/table-forms.ts';
import { previewTable, type TableForm, type TablePreview } from '#core/survey/table-import.ts';
import { gridFromFile } from '../hull-file.ts';
import { EXIT, guarded, writeNewFile } from './common.ts';
import { tableWords } from './figure.ts';

const HELP = `
TABLE is CSV or XLSX (first sheet). The header may stand under a title, in two rows with merged cells,
with units in it or in a row of their own; t or kg, m, mm or cm. A comma is a decimal comma beside
semicolons. Formulas count by the values the file holds. Nothing is corrected: a row that cannot be
taken is refused with its reason, and with a refused row nothing is written.

Exit codes: 0 every row would be taken, 2 wrong usage, 3 the table is refused, 4 rows are refused.

Examples:
  heelwright import items.xlsx --as items
  heelwright import lines.xlsx --as offsets --out lines.csv`;

const FORMS = {
  items: ITEMS_TABLE,
  weights: WEIGHTS_TABLE,
  tanks: TANKS_TABLE,
  offsets: OFFSETS_TABLE,
  hydrostatics: HYDROSTATICS_TABLE,
} as const satisfies Record<string, TableForm<unknown>>;
type FormName = keyof typeof FORMS;

interface ImportOptions {
  readonly as: FormName;
  readonly out?: string;
  readonly json?: boolean;
}

/** `import TABLE`: what a table would give, and every row that is refused. */
export function registerImport(program: Command): void {
  program
    .command('import')
    .description(
      'look at a table of items, weights, tanks, offsets or hydrostatics, and take it in',
    )
    .argument('<table>', 'CSV or XLSX')
    .addOption(
      new Option('--as <what>', 'what it is a table of')
        .choices(Object.keys(FORMS))
        .makeOptionMandatory(),
    )
    .option('--out <file>', 'write what is taken: CSV of offsets and hydrostatics, else JSON')
    .option('--json', 'answer as JSON')
    .addHelpText('after', HELP)
    .action((path: string, options: ImportOptions) =>
      guarded(options.json ?? false, () => importTable(path, options)),
    );
}

async function importTable(path: string, { as, out, json }: ImportOptions): Promise<void> {
  const preview = previewTable<unknown>(await gridFromFile(path), FORMS[as]);
  const { taken, refused } = preview;
  console.log(json ? JSON.stringify(preview, null, 2) : previewWords(preview).join('\n'));
  if (refused.length > 0) {
    process.exitCode = EXIT.failed;
    return;
  }
  if (taken.length === 0) throw new Fault('input-too-few', path, 'no row under the header');
  if (out !== undefined)
    writeNewFile(
      out,
      contentOf(
        as,
        taken.map(({ value }) => value),
      ),
    );
}

function contentOf(as: FormName, values: readonly unknown[]): string {
  if (as !== 'offsets' && as !== 'hydrostatics') return `${JSON.stringify(values, null, 2)}\n`;
  const rows = values as readonly NumberRow[];
  const header = FORMS[as].columns
    .map(({ field }) => field)
    .filter((field) => rows.some((row) => row[field] !== undefined));
  return csvTable(
    header,
    rows.map((row) => header.map((field): CsvCell => row[field] ?? null)),
  );
}

const SHOWN = 5;

function previewWords({ columns, taken, refused, passedOver }: TablePreview<unknown>): string[] {
  return [
    'Columns found',
    ...tableWords(columns.map(({ field, heading, unit }) => [`  ${field}`, heading, unit])),
    `${taken.length} rows taken, ${refused.length} refused, ${passedOver.length} passed over (empty, or a sum)`,
    ...taken.slice(0, SHOWN).map(({ row, value }) => `  row ${row}: ${JSON.stringify(value)}`),
    ...(taken.length > SHOWN ? [`  and ${taken.length - SHOWN} more`] : []),
    ...refused.map(({ row, field, reason }) => `  row ${row} refused: ${field}: ${reason}`),
  ];
}
