import { BLOCK_S, type RollModel, type RollStep, rollStep } from './roll-model.ts';

/** What is held possible of heel and of ringing before the first block, degrees: anything. */
const WIDE_DEG = 10;

/**
 * The heel and its standard error from block means as they come, the model being given: a Kalman
 * filter whose mean heel starts from a prior so wide that the result is generalised least squares
 * on everything fed. Constant memory and about 0.1 us a block. Also gives what the likelihood of
 * the model needs, and each block's deviation from its prediction in standard deviations.
 */
export class HeelFilter {
  /** Minus the logarithm of the likelihood of all blocks so far, but for a constant. */
  minusLogLikelihood = 0;
  blocks = 0;
  /** Of the last block: what it was off its prediction, and the variance expected of that. */
  deviationDeg = 0;
  deviationVariance = 1;
  private readonly step: RollStep;
  private readonly model: RollModel;
  private readonly noiseVariance: number;
  // state: roll a, roll rate over natural frequency b, slow heel s, mean heel m
  private a = 0;
  private b = 0;
  private s = 0;
  private m = 0;
  private paa: number;
  private pab = 0;
  private pas = 0;
  private pam = 0;
  private pbb: number;
  private pbs = 0;
  private pbm = 0;
  private pss: number;
  private psm = 0;
  private pmm = WIDE_DEG ** 2;

  /** `nearDeg`: some heel seen, so that numbers stay small; the result does not depend on it. */
  constructor(model: RollModel, nearDeg: number) {
    this.model = model;
    this.step = rollStep(model, BLOCK_S);
    this.noiseVariance = model.noiseDeg ** 2;
    this.m = nearDeg;
    this.paa = model.rollDeg ** 2;
    this.pbb = this.paa;
    this.pss = model.slowDeg ** 2;
  }

  get heelDeg(): number {
    return this.m;
  }

  /** Squared standard error of the mean heel, the model taken as true. */
  get variance(): number {
    return this.pmm;
  }

  /** Amplitude of the roll as it is now. */
  get amplitudeDeg(): number {
    return Math.hypot(this.a, this.b);
  }

  /**
   * Forgets the roll and lets it begin anew with a ringing of about `ringingDeg` on top of what
   * the model drives: at the start, and after a stretch that was not used.
   */
  letRing(ringingDeg: number): void {
    const variance = this.model.rollDeg ** 2 + Math.min(ringingDeg, WIDE_DEG) ** 2;
    this.a = 0;
    this.b = 0;
    this.paa = variance;
    this.pbb = variance;
    this.pab = 0;
    this.pas = 0;
    this.pam = 0;
    this.pbs = 0;
    this.pbm = 0;
  }

  /** Time goes on by one block without a value that may be used. */
  skip(): void {
    const { a11, a12, a21, a22, q11, q12, q22, slowKept, slowAdded } = this.step;
    const { a, b, paa, pab, pbb, pas, pbs, pam, pbm } = this;
    this.a = a11 * a + a12 * b;
    this.b = a21 * a + a22 * b;
    const a1 = a11 * paa + a12 * pab;
    const b1 = a11 * pab + a12 * pbb;
    const a2 = a21 * paa + a22 * pab;
    const b2 = a21 * pab + a22 * pbb;
    this.paa = a1 * a11 + b1 * a12 + q11;
    this.pab = a1 * a21 + b1 * a22 + q12;
    this.pbb = a2 * a21 + b2 * a22 + q22;
    this.pas = slowKept * (a11 * pas + a12 * pbs);
    this.pbs = slowKept * (a21 * pas + a22 * pbs);
    this.pam = a11 * pam + a12 * pbm;
    this.pbm = a21 * pam + a22 * pbm;
    this.s *= slowKept;
    this.pss = slowKept * slowKept * this.pss + slowAdded;
    this.psm *= slowKept;
  }

  /** One block mean. */
  push(heelDeg: number): void {
    this.skip();
    const ka = this.paa + this.pas + this.pam;
    const kb = this.pab + this.pbs + this.pbm;
    const ks = this.pas + this.pss + this.psm;
    const km = this.pam + this.psm + this.pmm;
    const variance = ka + ks + km + this.noiseVariance;
    const deviation = heelDeg - (this.a + this.s + this.m);
    const gain = deviation / variance;
    this.a += ka * gain;
    this.b += kb * gain;
    this.s += ks * gain;
    this.m += km * gain;
    const f = 1 / variance;
    this.paa -= ka * ka * f;
    this.pab -= ka * kb * f;
    this.pas -= ka * ks * f;
    this.pam -= ka * km * f;
    this.pbb -= kb * kb * f;
    this.pbs -= kb * ks * f;
    this.pbm -= kb * km * f;
    this.pss -= ks * ks * f;
    this.psm -= ks * km * f;
    this.pmm -= km * km * f;
    this.minusLogLikelihood += 0.5 * (Math.log(variance) + deviation * gain);
    this.blocks += 1;
    this.deviationDeg = deviation;
    this.deviationVariance = variance;
  }
}
