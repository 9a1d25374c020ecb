import { blockBody, OPENED_BODY } from './record-lines.ts';
import { randomFromSeed } from './seeded.ts';

/** Pieces of JSON that parsers disagree on, that cost more than they look, or that reach too far. */
export const VENOM = [
  ...['-0', '1e999', '-1e999', '1e-400', '9007199254740993', '1E5', '0.1e1', '00', '+1', '.5'],
  ...['NaN', 'null', 'true', '""', '[]', '{}', '[[[[]]]]', '['.repeat(30), '1'.repeat(400)],
  '{"__proto__":{"lines":9}}',
  '{"a":1,"a":2}',
  '"\\u0000"',
  '"\\ud800"',
  '{"constructor":1}',
  '\u2028',
  '\r',
  '"../../../etc/passwd"',
  '"<img src=x onerror=alert(1)>"',
  '"=cmd|\' /C calc\'!A0"',
  `"${'x'.repeat(3000)}"`,
]; // prettier-ignore

const WELL_FORMED: readonly unknown[] = [
  { type: 'act', id: '1', act: { kind: 'begin-shift' } },
  { type: 'act', id: '2', act: { kind: 'void-reading', line: 3, reason: 'a wake' } },
  { type: 'act', id: '3', act: { kind: 'remark', text: 'calm', line: null } },
  { type: 'act', id: '4', act: { kind: 'ask', what: 'objection', text: 'no', line: 2 } },
  { type: 'act', id: '5', act: { kind: 'seal', reason: 'done' } },
  { type: 'invite', id: '6', role: 'architect' },
  { type: 'withdraw', id: '7', person: '0badcafe' },
  { type: 'token', version: 1, token: 'T'.repeat(43), name: '' },
  { type: 'invited', version: 1, code: 'C'.repeat(22), name: 'X' },
  { type: 'invited-by-words', version: 1, words: 'zoo zoo zoo zoo', name: '' },
  { type: 'exchange', sentStationS: 1.5 },
  { ...OPENED_BODY, stream: 'station-9/board-1/1', station: 'station-9' },
  blockBody(1, 0),
];

/** Messages that are nearly right, or nothing at all; the same for the same seed. */
export function hostileMessages(seed: number, count: number): (string | Buffer)[] {
  const random = randomFromSeed(seed);
  return Array.from({ length: count }, () => hostileMessage(random));
}

function hostileMessage(random: () => number): string | Buffer {
  const below = (limit: number) => Math.floor(random() * limit);
  const text = JSON.stringify(WELL_FORMED[below(WELL_FORMED.length)]);
  const at = below(text.length);
  const venom = VENOM[below(VENOM.length)] as string;
  switch (below(9)) {
    case 0:
      return text.slice(0, at);
    case 1:
      return text.slice(0, at) + venom + text.slice(at);
    case 2:
      return swappedValue(text, venom, below);
    case 3:
      return `${text.slice(0, at)}${String.fromCharCode(below(0x250))}${text.slice(at + 1)}`;
    case 4:
      return `${'['.repeat(below(4000))}${text}`;
    case 5:
      return text.replace(
        '{',
        `{"${['__proto__', 'constructor', 'toString'][below(3)]}":${venom},`,
      );
    case 6:
      return Buffer.from(Array.from({ length: below(200) }, () => below(256)));
    case 7:
      return venom;
    default:
      return text + text;
  }
}

/** One value of the JSON in the place of which something else stands. */
function swappedValue(text: string, venom: string, below: (limit: number) => number): string {
  const values = [...text.matchAll(/(?<=:)("[^"]*"|-?[\d.]+|null|true|false)/g)];
  const value = values[below(values.length)];
  if (value?.index === undefined) return venom;
  return text.slice(0, value.index) + venom + text.slice(value.index + value[0].length);
}
