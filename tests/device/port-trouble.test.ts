import { expect, it } from 'vitest';
import { groupName, portTrouble } from '#device/port-trouble.ts';

it('tells permission and holding from the words of each system', async () => {
  // Words of serialport's bindings on Linux, macOS and Windows.
  for (const [said, code] of [
    ['Error: Permission denied, cannot open /dev/ttyUSB0', 'port-permission'],
    ['Error Resource temporarily unavailable Cannot lock port', 'port-in-use'],
    ['Error: Error Resource busy, cannot open /dev/cu.usbserial', 'port-in-use'],
    ['Opening COM7: Access denied', 'port-in-use'],
    ['Error: No such file or directory, cannot open /dev/ttyUSB9', 'port-not-open'],
    ['Opening COM9: File not found', 'port-not-open'],
  ] as const)
    expect((await portTrouble('/dev/none-such', said)).code, said).toBe(code);
});

it('finds the name of a group', () => {
  const file = 'root:x:0:\ntty:x:5:\ndialout:x:20:somebody\n';
  expect(groupName(file, 20)).toBe('dialout');
  expect(groupName(file, 99)).toBeNull();
});
