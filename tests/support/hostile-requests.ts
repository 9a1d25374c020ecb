import { randomFromSeed } from './seeded.ts';

const PATHS = [
  ...['/', '/health', '/screen', '/device', '/index.html', '/assets/', '/none', '*', '//', '/?'],
  ...['/../secret.txt', '/%2e%2e/secret.txt', '/..%2fsecret.txt', '/%252e%252e/secret.txt'],
  ...['/%00', '/a%', '/%c0%ae%c0%ae/secret.txt', '/\\..\\secret.txt', '/.git/config', '/.env'],
  ...['http://evil.example/', '/photograph/1', '/record', '/%E0%A4%A', `/${'a'.repeat(6000)}`],
] as const;
const METHODS = ['GET', 'HEAD', 'POST', 'PUT', 'DELETE', 'OPTIONS', 'CONNECT', 'TRACE', 'G\u0001T'];
const HEADERS = [
  'Origin: http://evil.example',
  'Origin: null',
  'Range: bytes=0-0,5-1,-9,99999999999999999999-',
  'Range: bytes=-1',
  'If-None-Match: "x"',
  'Accept-Encoding: gzip, br, \u0000',
  'Content-Length: 5',
  'Content-Length: -1',
  'Transfer-Encoding: chunked',
  'Expect: 100-continue',
  'Authorization: Bearer AAAA',
  'Cookie: token=AAAA; __proto__=1',
  'Upgrade: websocket',
  'Connection: Upgrade',
  'Sec-WebSocket-Version: 13',
  'Sec-WebSocket-Version: 99',
  'Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==',
  'Sec-WebSocket-Key: x',
  'Sec-WebSocket-Protocol: a,,b,\u007f',
  'Sec-WebSocket-Extensions: permessage-deflate; server_max_window_bits=99',
  `X-Long: ${'y'.repeat(9000)}`,
  ' folded: line',
  'no colon here',
  '__proto__: x',
];

/** Requests as bytes, nearly right or nothing at all; the same for the same seed. `host` is the true one. */
export function hostileRequests(seed: number, count: number, host: string): Buffer[] {
  const random = randomFromSeed(seed);
  const below = (limit: number) => Math.floor(random() * limit);
  const one = <T>(of: readonly T[]): T => of[below(of.length)]!;
  return Array.from({ length: count }, () => {
    if (below(12) === 0) return Buffer.from(Array.from({ length: below(400) }, () => below(256)));
    const lines = [`${one(METHODS)} ${one(PATHS)} HTTP/${one(['1.1', '1.0', '2.0', '9'])}`];
    const named = below(10);
    if (named < 7) lines.push(`Host: ${host}`);
    else if (named < 9) lines.push(`Host: ${one(['evil.example', '', `${host}.evil`, '[::1'])}`);
    for (let k = below(6); k > 0; k -= 1) lines.push(one(HEADERS));
    const text = `${lines.join(below(9) === 0 ? '\n' : '\r\n')}\r\n\r\n`;
    const bytes = Buffer.from(text, 'latin1');
    return below(8) === 0 ? bytes.subarray(0, below(bytes.length)) : bytes;
  });
}

/** What follows a handshake: frames with wrong masks, lengths, codes and pieces, or noise. */
export function hostileFrames(seed: number, count: number): Buffer[] {
  const random = randomFromSeed(seed);
  const below = (limit: number) => Math.floor(random() * limit);
  return Array.from({ length: count }, () => {
    const body = Buffer.from(Array.from({ length: below(200) }, () => below(256)));
    const first = below(3) === 0 ? below(256) : 0x80 | below(11);
    const lengths = [
      Buffer.from([body.length & 0x7f]),
      Buffer.from([0x80 | (body.length & 0x7f)]),
      Buffer.from([0xfe, below(256), below(256)]),
      Buffer.from([0xff, ...Array.from({ length: 8 }, () => below(256))]),
    ];
    return Buffer.concat([Buffer.from([first]), lengths[below(lengths.length)]!, body]);
  });
}
