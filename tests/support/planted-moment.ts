import type { Random } from '#core/numerics/random.ts';
import type { OutsideMoment } from '#device/emulated/simulated-world.ts';
import type { Planted } from './planted-day.ts';

/** How far the day has come, as its orders to the crane tell: which state, and since when each. */
export interface Course {
  state: number;
  readonly sinceS: number[];
}

/** Displacement times GM of *Marram*, t*m a radian, nearly. */
const STIFFNESS_TM = 44;
const RAD = Math.PI / 180;
const STEP_S = 0.02;
/** A change comes on over so many seconds, never in one step. */
const COMES_ON_S = 2;

/** What pushes her besides weights and berth, for the causes that push. */
export function plantedMoment(
  planted: Planted | null,
  random: Random,
  course: Course,
): OutsideMoment {
  const side = random.uniform() < 0.5 ? -1 : 1;
  const share = (low: number, high: number) =>
    STIFFNESS_TM * Math.exp(random.between(Math.log(low), Math.log(high)));
  const from = (state: number, afterS: number) => (timeS: number) => {
    const since = timeS - (course.sinceS[state] ?? Number.POSITIVE_INFINITY) - afterS;
    return Math.min(1, Math.max(0, since / COMES_ON_S));
  };
  const somewhere = (first: number, last: number) =>
    first + Math.floor((last - first + 1) * random.uniform());
  switch (planted) {
    case 'moved and stayed': {
      const there = from(somewhere(2, 7), random.between(2, 70));
      const momentTM = side * share(0.03, 0.25) * RAD;
      return (timeS) => momentTM * there(timeS);
    }
    case 'one state': {
      const state = somewhere(1, 7);
      const [there, away] = [from(state, 2), from(state + 1, 2)];
      const momentTM = side * share(0.03, 0.25) * RAD;
      return (timeS) => momentTM * (there(timeS) - away(timeS));
    }
    case 'line': {
      const tautRad = random.between(0.1, 0.6) * RAD;
      const springTM = share(0.03, 0.3);
      return (_, heelRad) => -side * springTM * Math.max(0, side * heelRad - tautRad);
    }
    case 'slack tank': {
      const freeTM = share(0.03, 0.15);
      const both = random.uniform() < 0.5;
      const reachedRad = random.between(both ? 0.8 : 0.2, 1.5) * RAD;
      return (_, heelRad) => {
        const beyond = Math.max(0, (both ? Math.abs(heelRad) : side * heelRad) - reachedRad);
        return freeTM * (heelRad - (both ? Math.sign(heelRad) : side) * beyond);
      };
    }
    case 'free surface': {
      const there = from(somewhere(3, 6), random.between(2, 40));
      const freeTM = share(0.03, 0.15);
      return (timeS, heelRad) => freeTM * there(timeS) * heelRad;
    }
    case 'cross-connection':
      return crossConnection(share(0.03, 0.12), random.between(40, 150));
    case 'ground': {
      const there = from(somewhere(3, 6), random.between(2, 40));
      const springTM = share(0.03, 0.2);
      const dampingTMS = share(0.02, 0.08);
      let beforeRad = 0;
      return (timeS, heelRad) => {
        const rateRadS = (heelRad - beforeRad) / STEP_S;
        beforeRad = heelRad;
        return -there(timeS) * (springTM * heelRad + dampingTMS * rateRadS);
      };
    }
    case 'wind':
      return wanderingMoment(random, share(0.02, 0.1) * RAD);
    case 'list drifts': {
      const rateTMS = (side * share(0.05, 0.35) * RAD) / 1500;
      return (timeS) => rateTMS * timeS;
    }
    default:
      return () => 0;
  }
}

/** Liquid runs to the low side through a pipe, slowly, and heels her on. */
function crossConnection(freeTM: number, slowS: number): OutsideMoment {
  let runRad = 0;
  return (_, heelRad) => {
    runRad += ((heelRad - runRad) * STEP_S) / slowS;
    return freeTM * runRad;
  };
}

/** Wind that changes from one quarter of an hour to the next, t*m standard deviation. */
function wanderingMoment(random: Random, sizeTM: number): OutsideMoment {
  const slowS = random.between(120, 500);
  const kept = Math.exp(-STEP_S / slowS);
  let momentTM = 0;
  return () => {
    momentTM = kept * momentTM + random.normal(sizeTM * Math.sqrt(1 - kept * kept));
    return momentTM;
  };
}
