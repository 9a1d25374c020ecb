/** Uniform numbers from 0 to 1 for tests, the same for the same seed (a multiplicative congruential generator; Lehmer 1951). */
export function randomFromSeed(seed: number): () => number {
  let state = (seed * 7919 + 1) % 2147483647;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** Bytes like a random source's, the same for the same seed. */
export function randomBytesFromSeed(seed: number): (bytes: number) => Uint8Array {
  const random = randomFromSeed(seed);
  return (bytes) => Uint8Array.from({ length: bytes }, () => Math.floor(random() * 256));
}
