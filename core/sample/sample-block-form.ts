import { FAULTS } from '../fault/fault.ts';
import {
  MOST_CHANNELS,
  MOST_FAULTS_IN_BLOCK,
  MOST_SAMPLES_IN_BLOCK,
  type SampleBlock,
  STREAM_ID,
} from './stream-item.ts';

const KEYS = [
  'type',
  'stream',
  'number',
  'v',
  'firstSequence',
  'firstBoardUs',
  'stepUs',
  'columns',
  'faults',
  'skipped',
  'arrivedStationS',
] as const;

/**
 * Is this value, fresh from JSON, a sample block? The same answer as the schema `sampleBlock`
 * gives (a property test holds them together), at a small part of its time: nearly every line of
 * a record is one. Says nothing of why not; for that the schema is asked.
 */
export function isSampleBlock(value: unknown): value is SampleBlock {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
  // Only read here, and every field is checked before it is believed.
  const block = value as Record<string, unknown>;
  const steps = Object.hasOwn(block, 'stepSequence') ? 1 : 0;
  if (Object.keys(block).length !== KEYS.length + steps) return false;
  if (!KEYS.every((key) => Object.hasOwn(block, key))) return false;
  const { stepUs, columns, faults } = block;
  if (!isHeadOfBlock(block) || !Array.isArray(stepUs)) return false;
  const samples = stepUs.length;
  if (samples < 1 || samples > MOST_SAMPLES_IN_BLOCK || !stepUs.every(isCount)) return false;
  if (steps === 1 && !isCounts(block['stepSequence'], samples)) return false;
  if (!Array.isArray(columns) || columns.length < 1 || columns.length > MOST_CHANNELS) return false;
  if (!columns.every((column) => isColumn(column, samples))) return false;
  return Array.isArray(faults) && faults.length <= MOST_FAULTS_IN_BLOCK && faults.every(isFault);
}

function isHeadOfBlock(block: Record<string, unknown>): boolean {
  const { type, stream, v, arrivedStationS } = block;
  return (
    type === 'samples' &&
    v === 1 &&
    typeof stream === 'string' &&
    STREAM_ID.test(stream) &&
    isCount(block['number']) &&
    isCount(block['firstSequence']) &&
    isCount(block['firstBoardUs']) &&
    isCount(block['skipped']) &&
    Number.isFinite(arrivedStationS)
  );
}

function isCount(value: unknown): value is number {
  return Number.isSafeInteger(value) && (value as number) >= 0;
}

function isCounts(value: unknown, length: number): boolean {
  return Array.isArray(value) && value.length === length && value.every(isCount);
}

function isColumn(value: unknown, samples: number): boolean {
  if (!Array.isArray(value) || value.length !== samples) return false;
  for (let k = 0; k < samples; k++)
    if (value[k] !== null && !Number.isSafeInteger(value[k])) return false;
  return true;
}

function isFault(value: unknown): boolean {
  return (
    Array.isArray(value) &&
    value.length === 3 &&
    isCount(value[0]) &&
    isCount(value[1]) &&
    typeof value[2] === 'string' &&
    Object.hasOwn(FAULTS, value[2])
  );
}
