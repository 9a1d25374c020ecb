import { Fault } from '#core/fault/fault.ts';
import { jsonTextSeen } from '#core/record/guard-json.ts';
import type { HullFile } from '#core/session/hull-of-text.ts';
import { hullOfFiles, type TextFile } from '../prepare/hull-files.ts';

/** Files told apart by what they hold. */
export interface LoadingFiles {
  readonly loading: TextFile | null;
  /** Authorities' own rule sets. */
  readonly rules: readonly TextFile[];
  /** A hull file and the table it names, or a table alone; empty: the record's hull serves. */
  readonly hull: readonly TextFile[];
}

export const NO_FILES: LoadingFiles = { loading: null, rules: [], hull: [] };

const MOST_CHARACTERS = 4_000_000;
const MOST_RULES = 12;

/**
 * What is open, with files opened beside it. A loading file and a rule set say what they are in their
 * first field; other JSON and tables are a hull, which takes the place of an earlier one. Throws
 * `input-too-large`, `input-not-json`.
 */
export function withFiles(open: LoadingFiles, files: readonly TextFile[]): LoadingFiles {
  let { loading, rules } = open;
  const hull: TextFile[] = [];
  for (const file of files) {
    if (file.text.length > MOST_CHARACTERS)
      throw new Fault('input-too-large', file.name, `over ${MOST_CHARACTERS} characters`);
    const fields = /^\s*\{/.test(file.text) ? Object.keys(jsonOf(file) as object) : [];
    if (fields.includes('heelwrightLoading')) loading = file;
    else if (fields.includes('heelwrightRules'))
      rules = [...rules.filter((one) => one.name !== file.name), file];
    else hull.push(file);
  }
  if (rules.length > MOST_RULES)
    throw new Fault('input-too-large', 'rule sets', `over ${MOST_RULES} of them`);
  return { loading, rules, hull: hull.length > 0 ? hull : open.hull };
}

/** JSON of a file of somebody's, looked at before it is parsed. Throws `input-not-json`. */
export function jsonOf({ name, text }: TextFile): unknown {
  const { danger } = jsonTextSeen(text);
  if (danger !== null) throw new Fault('input-not-json', name, danger);
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Fault('input-not-json', name, error instanceof Error ? error.message : 'not JSON');
  }
}

/** The hull among the files that were opened; null where there is none. Throws what `hullOfFiles` refuses. */
export function hullAmong({ hull }: LoadingFiles): HullFile | null {
  if (hull.length === 0) return null;
  const offsets = hull.some(({ text }) => /halfBreadthM/.test(text.slice(0, 400)));
  const { entered, refused } = hullOfFiles(hull, offsets ? 'offsets' : 'points');
  if (refused !== null) throw new Fault(refused.code, refused.where, refused.found);
  return entered;
}
