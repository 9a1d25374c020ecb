import { describe, expect, it } from 'vitest';
import { isOwnHost, lanAddresses } from '#receiver/access/addresses.ts';

const V4 = { netmask: '', mac: '', cidr: null } as const;

describe('addresses of this machine', () => {
  it('are those of its networks, each with its interface, and not its own loop', () => {
    const given = lanAddresses({
      lo: [{ ...V4, family: 'IPv4', address: '127.0.0.1', internal: true }],
      wlan0: [
        { ...V4, family: 'IPv4', address: '192.168.7.20', internal: false },
        { ...V4, family: 'IPv6', address: 'fe80::1', internal: false, scopeid: 2 },
      ],
      eth0: [{ ...V4, family: 'IPv4', address: '10.0.0.4', internal: false }],
    });
    expect(given).toEqual([
      { interface: 'wlan0', address: '192.168.7.20' },
      { interface: 'eth0', address: '10.0.0.4' },
    ]);
  });

  it('a Host header must name one of them, at the very port', () => {
    const names = new Set(['127.0.0.1', 'localhost', '[::1]', '192.168.7.20', 'dock.local']);
    const own = (host: string | undefined, port = 4780) => isOwnHost(host, port, names);
    for (const host of ['127.0.0.1:4780', 'LOCALHOST:4780', '[::1]:4780', 'dock.local:4780'])
      expect([host, own(host)]).toEqual([host, true]);
    for (const host of [
      undefined,
      '',
      'localhost',
      'localhost:4781',
      'evil.example:4780',
      '127.0.0.1.evil.example:4780',
      '127.0.0.1:4780@evil.example',
      'evil.example#127.0.0.1:4780',
      '192.168.7.21:4780',
      '[::1',
      'localhost:4780:4780',
      'localhost:+4780',
    ])
      expect([host, own(host)]).toEqual([host, false]);
    expect(own('localhost', 80)).toBe(true);
    expect(own('dock.local', 443)).toBe(true);
  });
});
