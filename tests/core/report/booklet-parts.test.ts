import { expect, it } from 'vitest';
import {
  type BookletAsked,
  lightshipBlocks,
  limitBlocks,
  openingBlocks,
  particularBlocks,
  spaceBlocks,
} from '#core/report/booklet-parts.ts';
import { BOX_LOADING } from '#tests/core/stability/box-loading.ts';
import { boxAnswer } from '#tests/support/box-booklet.ts';
import { textsOf } from '#tests/support/reported-day.ts';

const asked: BookletAsked = {
  ...{ input: BOX_LOADING, answer: boxAnswer(), limits: [], revision: 1, earlier: null },
  spaces: [
    {
      ...{ space: 'tank', use: 'fuel', densityTM3: 0.84, volumeM3: 2, xM: 4, yM: 0, zM: 1 },
      soundings: [
        { depthM: 0, volumeM3: 0 },
        { depthM: 0.1, volumeM3: 0.5 },
      ],
    },
  ],
  wall: '2026-05-04T09:00:00.000Z',
};

it('says what is not stated, and whose uncertainty is not known', () => {
  expect(textsOf(particularBlocks(asked))).toContain('not stated');
  const lightship = textsOf(lightshipBlocks(asked));
  expect(lightship).toContain('170 t, standard uncertainty 0.5 t');
  expect(lightship).toContain('0 m, uncertainty not known');
});

it('tables soundings with volume, mass and share', () => {
  const texts = textsOf(spaceBlocks(asked));
  expect(texts).toEqual(expect.arrayContaining(['0.10', '0.500', '0.420', '25 %']));
});

it('has a limit with what governs it, or says that there is none', () => {
  const limits = [{ displacementT: 180, trimM: 0, kgM: null, governing: ['170.173(b)'] }];
  expect(textsOf(limitBlocks({ ...asked, limits }))).toEqual(
    expect.arrayContaining(['none', '170.173(b)']),
  );
  expect(textsOf(limitBlocks(asked))).toContain('No limit was asked for.');
  expect(textsOf(openingBlocks(asked))).toContain('The hull file names no opening.');
});
