import type { ScanPlan } from '../scan-plan.ts';
import type { ScanFrame } from './scan-message.ts';

/** Frames of one board, whoever makes them: the board on its own clock, or the host by asking. */
export interface ScanFeed {
  /** Begins at sequence 0; resolves when the board has agreed. Rejects with a Fault. */
  start(plan: ScanPlan, periodUs: number): Promise<void>;
  stop(): Promise<void>;
}

export interface FrameListener {
  frame(frame: ScanFrame): void;
}
