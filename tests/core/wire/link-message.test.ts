import { expect, it } from 'vitest';
import { textFromUtf8 } from '#core/digest/utf-8.ts';
import { stationProofText } from '#core/wire/link-message.ts';

it('what a station signs names its connection, itself and its run, each on a line of its own', () => {
  const text = textFromUtf8(stationProofText('challenge', 'station-1', 'run-1'));
  expect(text).toBe('heelwright station 1\nchallenge\nstation-1\nrun-1\n');
});
