import { expect, it } from 'vitest';
import { exportReadme, VERIFY_WITH_NODE, VERIFY_WITH_PYTHON } from '#core/report/export-texts.ts';

it('tells whoever gets the files what they are and how to check them', () => {
  const text = exportReadme({
    ...{ record: 'day.hwr', vessel: 'Marram', program: 'heelwright 0.1.0' },
    receipt: '812 harbor ladder',
  });
  for (const part of [
    'Marram',
    'day.hwr',
    'verify.py',
    'verify.mjs',
    '812 harbor ladder',
    'SHA256SUMS',
  ])
    expect(text).toContain(part);
});

it('checks with nothing but what comes with Node or Python', () => {
  const fromNode = [...VERIFY_WITH_NODE.matchAll(/from '([^']+)'/g)].map(([, name]) => name!);
  expect(fromNode.every((name) => name.startsWith('node:'))).toBe(true);
  expect(VERIFY_WITH_PYTHON.match(/^import (.*)$/m)?.[1]).toBe('hashlib, json, os, sys');
});
