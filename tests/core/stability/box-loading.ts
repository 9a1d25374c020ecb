import { type LoadingInput, loadingInput } from '#core/stability/loading-input.ts';
import { TANK } from './box-condition.ts';

/** A loading file of the box: two conditions, a tank, a lightship with its uncertainties. */
export const BOX_LOADING: LoadingInput = loadingInput.parse({
  heelwrightLoading: 1,
  vessel: 'a box',
  invented: true,
  hull: 'box.json',
  densityKgM3: 1025,
  particulars: {
    lengthsM: { regulation: 20 },
    services: ['workboat', 'fishing'],
    hulls: 'mono',
    decked: true,
  },
  lightship: {
    mass: { value: 170, standardUncertainty: 0.5 },
    lcg: { value: 10, standardUncertainty: 0.02 },
    tcg: { value: 0 },
    vcg: { value: 1.9, standardUncertainty: 0.01, degreesOfFreedom: 6 },
  },
  spaces: [TANK],
  openings: [],
  ruleSets: ['us-46-cfr-170-173'],
  conditions: [
    {
      condition: 'half a tank',
      kind: 'working',
      fillings: [{ space: 'tank', share: 0.5 }],
      items: [{ item: 'stone', use: 'deck-cargo', massT: 8.5, at: { xM: 10, yM: 0, zM: 3.2 } }],
    },
    { condition: 'light', kind: 'lightship', fillings: [], items: [] },
  ],
});
