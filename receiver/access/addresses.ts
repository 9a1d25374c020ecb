import { hostname, networkInterfaces } from 'node:os';

/** An address of this machine on a network, and the interface it is on. */
export interface LanAddress {
  readonly interface: string;
  readonly address: string;
}

/** IPv4 addresses other machines may reach this one at, in the system's order. */
export function lanAddresses(interfaces = networkInterfaces()): LanAddress[] {
  return Object.entries(interfaces).flatMap(([name, addresses]) =>
    (addresses ?? [])
      .filter(({ family, internal }) => family === 'IPv4' && !internal)
      .map(({ address }) => ({ interface: name, address })),
  );
}

/** Every name this machine is called by: a page that names us otherwise was led here. */
export function ownNames(): Set<string> {
  const name = hostname().toLowerCase();
  const local = name.endsWith('.local') ? name : `${name}.local`;
  return new Set([
    '127.0.0.1',
    'localhost',
    '[::1]',
    name,
    local,
    ...lanAddresses().map(({ address }) => address),
  ]);
}

/** Does a Host header name this machine at this port? */
export function isOwnHost(host: string | undefined, port: number, names = ownNames()): boolean {
  if (host === undefined) return false;
  const parts = /^(\[[0-9a-f:]+\]|[^:[\]]+)(?::(\d{1,5}))?$/i.exec(host);
  if (parts === null) return false;
  const [, name = '', at] = parts;
  return (
    names.has(name.toLowerCase()) &&
    (at === undefined ? port === 80 || port === 443 : Number(at) === port)
  );
}
