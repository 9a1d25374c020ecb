import { cutBodies } from '#core/hull/cut.ts';
import { immersedOf } from '#core/hull/hull.ts';
import { hydrostaticsAt } from '#core/hull/hydrostatics.ts';
import { knCurve } from '#core/hull/righting-lever.ts';
import { type Waterline, waterlineAtDraught } from '#core/hull/waterline.ts';
import { marramHull } from '#device/emulated/marram-hull.ts';
import { evenly, wigley } from '#tests/core/hull/hulls.ts';
import { clipped, type Facets, facetsOf } from '#tests/support/facets.ts';
import { solidOf } from '#tests/support/solid.ts';

export interface HullFigures {
  readonly facetsOfReference: number;
  /** Volume error of our cut against the reference, and its time. */
  readonly cutShare: number;
  readonly cutUs: number;
  /** Facets a plain clip needs for 1e-4, their error and time. */
  readonly plainFacets: number;
  readonly plainShare: number;
  readonly plainUs: number;
  /** The general library on as many facets. */
  readonly libraryUs: number;
  readonly gzMs: { readonly hull: string; readonly ms: number }[];
}

const AFLOAT: Waterline = { heelRad: 0.2, trimRad: 0.01, levelM: 1.35 };
const WANTED_SHARE = 1e-4;

/** Best of some rounds, microseconds for one run: what else the machine does only adds. */
function bestUs(rounds: number, runs: number, work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < rounds; round++) {
    const from = performance.now();
    for (let run = 0; run < runs; run++) work();
    best = Math.min(best, ((performance.now() - from) * 1000) / runs);
  }
  return best;
}

/** One cut of 21 stations and a free-trim GZ curve, beside a plain clip and a general library. */
export async function measureHull(): Promise<HullFigures> {
  const hull = wigley(16, 3.2, 1.5, 21, 11);
  const reference = facetsOf(hull.main, 70, 6);
  const exactM3 = clipped(reference, AFLOAT).volumeM3;
  const own = immersedOf(cutBodies(hull.bodies, AFLOAT)).volumeM3;
  let plain: Facets = facetsOf(hull.main, 1, 1);
  let plainShare = Number.POSITIVE_INFINITY;
  for (let fine = 1; plainShare > WANTED_SHARE && fine < 40; fine++) {
    plain = facetsOf(hull.main, fine, fine);
    plainShare = Math.abs(clipped(plain, AFLOAT).volumeM3 / exactM3 - 1);
  }
  const solid = await solidOf(plain);
  const figures = {
    facetsOfReference: reference.triangles.length / 3,
    cutShare: Math.abs(own / exactM3 - 1),
    cutUs: bestUs(40, 200, () => cutBodies(hull.bodies, AFLOAT)),
    plainFacets: plain.triangles.length / 3,
    plainShare,
    plainUs: bestUs(20, 10, () => clipped(plain, AFLOAT)),
    libraryUs: bestUs(5, 2, () => solid.cut(AFLOAT)),
    gzMs: [
      { hull: 'Wigley, 21 stations', of: hull },
      { hull: 'Marram, 24 stations and what stands on her', of: marramHull() },
    ].map(({ hull: name, of }) => {
      const { volumeM3, buoyancy } = hydrostaticsAt(of, waterlineAtDraught(1.4), 1.025);
      const trimming = { freeAbout: { xM: buoyancy.xM, zM: 1.5 } };
      const heels = evenly(0, Math.PI / 2, 37);
      return { hull: name, ms: bestUs(8, 1, () => knCurve(of, volumeM3, heels, trimming)) / 1000 };
    }),
  };
  solid.delete();
  return figures;
}
