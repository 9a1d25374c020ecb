import { type Command, Option } from 'commander';
import { DOCUMENTS, type DocumentName } from '../export/document-names.ts';
import { documentOfRecord } from '../export/documents.ts';
import { nodeSha256Hex } from '../node-digest.ts';
import { guarded, writeNewFile } from './common.ts';

const HELP = `
The same record gives the same bytes. The report holds the record's lines as an attachment, samples
by their digests. Nothing is written over: a file of that name must not be there.

Examples:
  heelwright report day.hwr
  heelwright report day.hwr --out marram.pdf --json`;

interface ReportOptions {
  readonly out?: string;
  readonly document: DocumentName;
  readonly json?: boolean;
}

/** `report RECORD`: a document of a record as PDF. */
export function registerReport(program: Command): void {
  program
    .command('report')
    .description('the documents of a recorded test as PDF')
    .argument('<record>', 'the record file')
    .addOption(
      new Option('--document <name>', 'which document').choices(DOCUMENTS).default('report'),
    )
    .option('--out <file>', 'the file to write (default: named after record and document)')
    .option('--json', 'answer as JSON')
    .addHelpText('after', HELP)
    .action((path: string, options: ReportOptions) =>
      guarded(options.json ?? false, () => report(path, options)),
    );
}

async function report(path: string, { out, document, json }: ReportOptions): Promise<void> {
  const file = out ?? `${path.replace(/\.hwr$/, '')}-${document}.pdf`;
  const bytes = await documentOfRecord(path, document);
  writeNewFile(file, bytes);
  const sha256 = nodeSha256Hex(bytes);
  console.log(
    json
      ? JSON.stringify({ document, file, bytes: bytes.length, sha256 })
      : `${file}, ${bytes.length} bytes, SHA-256 ${sha256}`,
  );
}
