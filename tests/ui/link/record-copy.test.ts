import { expect, it } from 'vitest';
import { takeRecordCopy } from '#ui/link/record-copy.ts';

const answering = (answer: () => Promise<Response>) => answer as unknown as typeof fetch;

it('says why there is no copy: not let in, refused with a code, or not answered', async () => {
  expect(await takeRecordCopy(null)).toBe('This browser is not let in.');
  const refused = answering(async () =>
    Response.json(
      { code: 'access-unknown', found: 'it is none given here', remedy: 'Ask.' },
      { status: 401 },
    ),
  );
  expect(await takeRecordCopy('Bearer x', 'record', refused)).toBe('it is none given here. Ask.');
  const gone = answering(async () => {
    throw new TypeError('failed to fetch');
  });
  expect(await takeRecordCopy('Bearer x', 'record', gone)).toMatch(/does not answer/);
});
