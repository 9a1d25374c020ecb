/**
 * Seeded chance. Two kinds: a sequence (one draw after the other) and a hash (the draw number
 * `counter` of a stream, at any time and in any order, the same in every thread). Both stand on
 * one 32-bit mixing function; no quality beyond simulation is claimed, and none for secrets.
 */

const MOST_COUNTER = Number.MAX_SAFE_INTEGER;
const TWO_32 = 2 ** 32;

/**
 * A bijection of 32-bit integers in which each input bit reaches each output bit: two rounds of
 * xor-shift and odd multiplication. The two constants are those of C. Wellons's published search
 * for low bias (*from memory*); the test holds the avalanche.
 */
function mix32(word: number): number {
  let mixed = word | 0;
  mixed = Math.imul(mixed ^ (mixed >>> 16), 0x7feb_352d);
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0x846c_a68b);
  return (mixed ^ (mixed >>> 16)) >>> 0;
}

function checkedSeed(seed: number): number {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`seed ${seed} is not a whole number`);
  return seed;
}

/** A 32-bit stream number from a whole-number seed and a name: other names, independent streams. */
export function streamFromSeed(seed: number, name: string): number {
  const whole = checkedSeed(seed);
  let stream = mix32((whole % TWO_32) ^ 0x5bd1_e995);
  stream = mix32(stream ^ Math.floor(whole / TWO_32));
  for (let index = 0; index < name.length; index++) {
    stream = mix32(stream ^ Math.imul(name.charCodeAt(index) + 1, 0x9e37_79b1));
  }
  return stream;
}

function hash32(stream: number, counter: number, lane: number): number {
  const high = Math.floor(counter / TWO_32);
  const low = counter - high * TWO_32;
  return mix32(mix32(mix32(stream ^ Math.imul(lane, 0x85eb_ca6b)) ^ low) + high);
}

/** Uniform on the open interval (0, 1), 32 bits fine. `counter` is a whole number, 0 or more. */
export function hashUniform(stream: number, counter: number): number {
  return (hash32(stream, counter, 1) + 0.5) / TWO_32;
}

/** Standard normal draw number `counter` of a stream (Box and Muller 1958, the cosine half). */
export function hashNormal(stream: number, counter: number): number {
  const radius = Math.sqrt(-2 * Math.log((hash32(stream, counter, 2) + 0.5) / TWO_32));
  return radius * Math.cos((2 * Math.PI * hash32(stream, counter, 3)) / TWO_32);
}

/**
 * Noise that is a continuous function of place: independent standard normal values at the whole
 * numbers, joined by weights that keep the variance at 1 between them. For noise that two readers
 * a hair's breadth apart in time must agree on. `place` 0 or more. The function remembers the two
 * values it stands between, which changes its speed and never its answer.
 */
export function createHashNoise(stream: number): (place: number) => number {
  let known = Number.NaN;
  let left = 0;
  let right = 0;
  return (place) => {
    const cell = Math.floor(place);
    if (cell !== known) {
      left = cell === known + 1 ? right : hashNormal(stream, cell);
      right = hashNormal(stream, cell + 1);
      known = cell;
    }
    const angle = (place - cell) * (Math.PI / 2);
    return Math.cos(angle) * left + Math.sin(angle) * right;
  };
}

/** A sequence of draws. */
export interface Random {
  /** Uniform on (0, 1). */
  uniform(): number;
  /** Uniform on [from, to). */
  between(from: number, to: number): number;
  /** Normal, mean 0. */
  normal(standardDeviation?: number): number;
}

/** The sequence of one seed and name: the hash of 0, 1, 2... Ends with a RangeError after 2^53 draws. */
export function createRandom(seed: number, name = ''): Random {
  const stream = streamFromSeed(seed, name);
  let counter = 0;
  const next = (): number => {
    if (counter >= MOST_COUNTER) throw new RangeError('the sequence of draws is used up');
    return counter++;
  };
  return {
    uniform: () => hashUniform(stream, next()),
    between: (from, to) => from + (to - from) * hashUniform(stream, next()),
    normal: (standardDeviation = 1) => standardDeviation * hashNormal(stream, next()),
  };
}
