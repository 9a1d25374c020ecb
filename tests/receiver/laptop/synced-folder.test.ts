import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { folderFinding } from '#receiver/laptop/synced-folder.ts';

const root = mkdtempSync(join(tmpdir(), 'folder-'));
afterAll(() => rmSync(root, { recursive: true }));

function at(...names: string[]): string {
  const folder = join(root, ...names);
  mkdirSync(folder, { recursive: true });
  return folderFinding(folder, process.platform).severity;
}

describe('folderFinding', () => {
  it('knows a synced folder by its name or its marker, in any parent', () => {
    expect(at('OneDrive - Yard', 'tests', 'day')).toBe('notice');
    expect(at('Nextcloud', 'x')).toBe('notice');
    mkdirSync(join(root, 'plain', '.stfolder'), { recursive: true });
    expect(at('plain', 'records')).toBe('notice');
  });

  it('leaves an ordinary folder alone', () => {
    expect(at('boxes', 'synchro')).toBe('well');
  });
});
