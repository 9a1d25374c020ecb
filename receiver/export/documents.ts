import type { ReportDocument } from '#core/report/document.ts';
import { testReport } from '#core/report/test-report.ts';
import { handCheck } from '#core/session/hand-check.ts';
import { type DayOfFile, dayOfFile } from './day-of-file.ts';
import type { DocumentName } from './document-names.ts';
import { pdfOfDocument } from './pdf.ts';

/** A document of a record as PDF. Throws what reading the record and printing it throw. */
export async function documentOfRecord(
  path: string,
  name: DocumentName,
  endBytes?: number,
): Promise<Uint8Array> {
  return pdfOfDocument(WRITTEN_BY[name](dayOfFile(path, endBytes)));
}

const WRITTEN_BY: Readonly<Record<DocumentName, (of: DayOfFile) => ReportDocument>> = {
  report: ({ day, excerpt }) =>
    testReport(day, handCheck(day.session, byHull(day)), [
      {
        name: 'lines.jsonl',
        type: 'application/jsonl',
        description: 'Every line of the record; blocks of samples by number and SHA-256',
        bytes: excerpt,
      },
    ]),
};

function byHull({ reduction: { reduction, byHull: is } }: DayOfFile['day']) {
  const displacement = is ? reduction?.float?.displacement : undefined;
  const classical = reduction?.classical.gmFluid;
  if (displacement === undefined || classical == null) return null;
  return { displacementT: displacement.value, classicalGmM: classical.value };
}
