import { Fault } from '../fault/fault.ts';

/** The number itself, or a fault when it is not finite. */
export function checkFinite(value: number, where: string): number {
  if (!Number.isFinite(value)) throw new Fault('input-not-finite', where, String(value));
  return value;
}

/** Every number of a column must be finite; the fault names the first that is not. */
export function checkAllFinite(values: ArrayLike<number>, where: string): void {
  for (let index = 0; index < values.length; index++) {
    checkFinite(values[index]!, `${where}[${index}]`);
  }
}

/** The number itself, or a fault when it is not finite or not above zero. */
export function checkPositive(value: number, where: string): number {
  checkFinite(value, where);
  if (value <= 0) throw new Fault('input-range', where, `${value} is not above zero`);
  return value;
}

/** The number itself, or a fault outside `least` to `most`, both allowed. */
export function checkRange(value: number, least: number, most: number, where: string): number {
  checkFinite(value, where);
  if (value < least || value > most) {
    throw new Fault('input-range', where, `${value} is not within ${least} to ${most}`);
  }
  return value;
}

export function checkEqualLength(
  left: ArrayLike<unknown>,
  right: ArrayLike<unknown>,
  where: string,
): void {
  if (left.length !== right.length) {
    throw new Fault('input-unequal-length', where, `${left.length} beside ${right.length}`);
  }
}
