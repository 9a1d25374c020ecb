const GONE = 'The receiver does not answer. Try again when it does.';

/** What can be taken away: the record itself, or the report of it. */
export type FileOfRecord = 'record' | 'report';

const FILES: Readonly<Record<FileOfRecord, { address: string; name: string }>> = {
  record: { address: '/record', name: 'record.hwr' },
  report: { address: '/document/report.pdf', name: 'report.pdf' },
};

/**
 * Fetches the record, or a document of it, and hands it to the browser as a file; null when that
 * was done, otherwise why not, in words. Nothing of it stays here.
 */
export async function takeRecordCopy(
  authorization: string | null,
  file: FileOfRecord = 'record',
  request: typeof fetch = fetch,
): Promise<string | null> {
  const { address, name: usual } = FILES[file];
  if (authorization === null) return 'This browser is not let in.';
  try {
    const answer = await request(address, { headers: { Authorization: authorization } });
    if (!answer.ok) return await refusalOf(answer);
    const name = /filename="([^"]+)"/.exec(answer.headers.get('Content-Disposition') ?? '')?.[1];
    saveAs(await answer.blob(), name ?? usual);
    return null;
  } catch {
    return GONE;
  }
}

async function refusalOf(answer: Response): Promise<string> {
  const { found, remedy } = (await answer.json()) as { found?: string; remedy?: string };
  return found === undefined
    ? `The receiver answers ${answer.status}.`
    : `${found}. ${remedy ?? ''}`;
}

function saveAs(file: Blob, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  // The browser has taken it up by then.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
