/** What stands beside exported data, so that whoever gets it needs neither us nor our program. */

/** Checks every digest of SHA256SUMS and the chain of the record; Node 18 or newer, nothing else. */
export const VERIFY_WITH_NODE = `// node verify.mjs        in the folder of these files
import { createHash } from 'node:crypto';
import { createReadStream, readdirSync, readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';

let wrong = 0;
const fail = (words) => {
  wrong += 1;
  console.error(words);
};
const listed = new Set(['SHA256SUMS']);
for (const line of readFileSync('SHA256SUMS', 'utf8').trim().split('\\n')) {
  const [digest, name] = [line.slice(0, 64), line.slice(66)];
  listed.add(name);
  const hash = createHash('sha256');
  try {
    for await (const part of createReadStream(name)) hash.update(part);
    if (hash.digest('hex') !== digest) fail(name + ' is not the file that was exported');
  } catch {
    fail(name + ' cannot be read');
  }
}
for (const name of readdirSync('.')) if (!listed.has(name)) console.log(name + ' is not of this export');
const record = [...listed].find((name) => name.endsWith('.hwr'));
let prev = '0'.repeat(64);
let n = 0;
const lines = createInterface({ input: createReadStream(record, 'latin1'), crlfDelay: 0 });
for await (const line of lines) {
  let head = {};
  try {
    head = JSON.parse(Buffer.from(line, 'latin1').toString());
  } catch {}
  if (head?.n !== n || head.prev !== prev) {
    fail('line ' + n + ' of the record does not hold');
    break;
  }
  prev = createHash('sha256').update(line + '\\n', 'latin1').digest('hex');
  n += 1;
}
console.log(n + ' lines of the record hold, the last is ' + prev);
process.exit(wrong === 0 ? 0 : 1);
`;

/** The same with Python 3 and its own library alone. */
export const VERIFY_WITH_PYTHON = `# python3 verify.py        in the folder of these files
import hashlib, json, os, sys

wrong = 0
def fail(words):
    global wrong
    wrong += 1
    print(words, file=sys.stderr)

listed = ['SHA256SUMS']
for line in open('SHA256SUMS', encoding='utf-8'):
    digest, name = line[:64], line[66:].rstrip('\\n')
    listed.append(name)
    try:
        found = hashlib.sha256()
        with open(name, 'rb') as file:
            for part in iter(lambda: file.read(1 << 20), b''):
                found.update(part)
        if found.hexdigest() != digest:
            fail(name + ' is not the file that was exported')
    except OSError:
        fail(name + ' cannot be read')
for name in os.listdir('.'):
    if name not in listed:
        print(name + ' is not of this export')
record = [name for name in listed if name.endswith('.hwr')][0]
prev, n = '0' * 64, 0
for line in open(record, 'rb'):
    try: head = json.loads(line.decode())
    except ValueError: head = {}
    if type(head) is not dict or head.get('n') != n or head.get('prev') != prev or line[-1:] != b'\\n':
        fail('line %d of the record does not hold' % n)
        break
    prev, n = hashlib.sha256(line).hexdigest(), n + 1
print('%d lines of the record hold, the last is %s' % (n, prev))
sys.exit(1 if wrong else 0)
`;

export interface ExportTold {
  readonly record: string;
  readonly vessel: string;
  readonly program: string;
  readonly receipt: string;
}

/** What each file is, in a text anyone can open. */
export function exportReadme({ record, vessel, program, receipt }: ExportTold): string {
  return `Inclining test of ${vessel}, exported by ${program}

${record}            the record, byte for byte: one line of JSON each, every line naming the
                     SHA-256 of the line before it. All other files follow from it.
readings.csv         every reading by each instrument, voided ones too
words.csv            what was not used and why, remarks, requests, objections, answers
heels.csv            smoothed heel of every instrument, ten a second: receiver time in s, degrees,
                     starboard down positive; empty where a sample is missing
counts-N.csv         the counts of stream N of the record as the board sent them: block, sequence,
                     board time in microseconds, one column a channel
result.json          the result as the screens have it
reduction.json       the whole reduction; reduction.schema.json is its form (JSON Schema)
plot-line.svg        tangent of heel on heeling moment, with the residuals
SHA256SUMS           the SHA-256 of every file above; "sha256sum -c SHA256SUMS" checks it
verify.mjs           checks all of that and the chain of the record: node verify.mjs
verify.py            the same: python3 verify.py

Tables: UTF-8, comma, decimal point, one header line; a text that a spreadsheet would take for a
formula begins with an apostrophe. Units stand in the headers.

Receipt of the record: ${receipt}
Who holds these words from the day can tell that nothing before that line was changed since. That the
sensors were real, or that the laptop ran this program, no file can show.
`;
}
