import { expect, test } from 'vitest';
import { photographOf } from '../../../ui/link/photograph.ts';

test('nobody without a token asks, and what is not given is said so', async () => {
  const asked: [string, unknown][] = [];
  const refuses = ((address: string, how: unknown) => {
    asked.push([address, how]);
    return Promise.resolve(new Response('', { status: 404 }));
  }) as typeof fetch;
  expect(await photographOf(null, 4, refuses)).toBeNull();
  expect(asked).toEqual([]);
  expect(await photographOf('Bearer x', 4, refuses)).toBeNull();
  expect(asked).toEqual([['/photograph/4', { headers: { Authorization: 'Bearer x' } }]]);
  const gone = (() => Promise.reject(new Error('gone'))) as typeof fetch;
  expect(await photographOf('Bearer x', 4, gone)).toBeNull();
});
