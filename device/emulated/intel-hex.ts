/**
 * Reads an Intel HEX text (record types 00 data and 01 end, all a 32 KiB part needs) into flash
 * words; flash not named stays 0xFFFF, as erased. Throws a RangeError with the line's number on a
 * wrong checksum, another record type or an address outside the flash.
 */
export function flashFromHex(text: string, flashBytes: number): Uint16Array {
  const bytes = new Uint8Array(flashBytes).fill(0xff);
  let ended = false;
  text.split(/\r?\n/).forEach((line, index) => {
    if (line === '' || ended) return;
    ended = readRecord(line, index + 1, bytes);
  });
  if (!ended) throw new RangeError('the hex file has no end record');
  return new Uint16Array(bytes.buffer);
}

function readRecord(line: string, number: number, flash: Uint8Array): boolean {
  if (!/^:([0-9A-Fa-f]{2}){5,}$/.test(line)) throw new RangeError(`line ${number}: not a record`);
  const record = Buffer.from(line.slice(1), 'hex');
  const [count = 0, high = 0, low = 0, type = 0] = record;
  const sum = record.reduce((total, byte) => total + byte, 0) & 0xff;
  if (sum !== 0 || record.length !== count + 5) throw new RangeError(`line ${number}: checksum`);
  if (type === 1) return true;
  if (type !== 0) throw new RangeError(`line ${number}: record type ${type}`);
  const address = high * 256 + low;
  if (address + count > flash.length) throw new RangeError(`line ${number}: outside the flash`);
  flash.set(record.subarray(4, 4 + count), address);
  return false;
}
