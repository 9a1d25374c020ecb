import { measureOpening } from './opening.ts';

const { bytes, lines, openS } = measureOpening();
console.log(
  `opening: ${(bytes / 1e6).toFixed(1)} MB, ${lines} lines, ${openS[0].toFixed(2)} s to ${openS[1].toFixed(2)} s`,
);
