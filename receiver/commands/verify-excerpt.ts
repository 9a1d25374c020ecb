import { Fault } from '#core/fault/fault.ts';
import { receiptOf, receiptText } from '#core/record/receipt.ts';
import { EMPTY_EXCERPT, followExcerpt } from '#core/report/excerpt.ts';
import { readWhole } from '../export/read-whole.ts';
import { nodeSha256Hex } from '../node-digest.ts';
import { EXIT, reportFault } from './common.ts';

const NEWLINE = 0x0a;
/** Lines without samples: as much as a report takes in. */
const MOST_BYTES = 128 * 1024 * 1024;

/** Follows the lines a report holds; what a left-out block itself names, only the record shows. */
export function verifyExcerpt(path: string, json: boolean): void {
  const chunks: Uint8Array[] = [];
  let held = 0;
  readWhole(path, (bytes) => {
    held += bytes.length;
    if (held > MOST_BYTES) throw new Fault('input-too-large', path, `over ${MOST_BYTES} bytes`);
    chunks.push(Uint8Array.from(bytes));
  });
  const all = Buffer.concat(chunks);
  let known = EMPTY_EXCERPT;
  try {
    for (let from = 0; from < all.length; ) {
      const at = all.indexOf(NEWLINE, from);
      const end = at < 0 ? all.length : at + 1;
      known = followExcerpt(known, all.subarray(from, end), nodeSha256Hex);
      from = end;
    }
    if (known.lines === 0) throw new Fault('record-line', 'line 0', 'the file is empty');
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    reportFault(error, json, EXIT.failed);
    return;
  }
  const { lines, head, leftOut } = known;
  const receipt = receiptText(receiptOf({ lines, head }));
  console.log(
    json
      ? JSON.stringify({ holds: true, lines, leftOut, head, receipt })
      : [
          `All ${lines} lines hold, ${leftOut} of them by their digest alone. Head: ${head}`,
          `As a receipt: ${receipt}`,
          'What a left-out line names itself only the record shows: hold that against the receipt.',
        ].join('\n'),
  );
}
