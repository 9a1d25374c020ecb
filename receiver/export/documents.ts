import { Fault } from '#core/fault/fault.ts';
import { certificateDocument } from '#core/report/certificate-document.ts';
import type { ReportDocument } from '#core/report/document.ts';
import { reportMarks } from '#core/report/report-marks.ts';
import { testReport } from '#core/report/test-report.ts';
import { witnessSheet } from '#core/report/witness-sheet.ts';
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
  'witness-sheet': ({ day }) => witnessSheet(day),
  certificates: ({ day }) => {
    const { session, head, lastWall } = day;
    if (session.certificates.length === 0)
      throw new Fault('input-too-few', 'certificates', 'the record holds none');
    return certificateDocument(session.certificates, {
      subject: [session.test?.vessel, session.test?.at].filter((part) => part != null).join(', '),
      wall: lastWall,
      marks: reportMarks(day).filter((mark) => mark.startsWith('Rehearsal')),
      foot: `Record ${session.record ?? 'none'}, ${head.lines} lines, ends ${head.head.slice(0, 16)}`,
    });
  },
};

function byHull({ reduction: { reduction, byHull: is } }: DayOfFile['day']) {
  const displacement = is ? reduction?.float?.displacement : undefined;
  const classical = reduction?.classical.gmFluid;
  if (displacement === undefined || classical == null) return null;
  return { displacementT: displacement.value, classicalGmM: classical.value };
}
