/**
 * A photograph of the record as a data address, since a token goes in a header and never in an
 * address. Null: this browser is not let in, or the receiver does not give it.
 */
export async function photographOf(
  authorization: string | null,
  line: number,
  request: typeof fetch = fetch,
): Promise<string | null> {
  if (authorization === null) return null;
  try {
    const answer = await request(`/photograph/${line}`, {
      headers: { Authorization: authorization },
    });
    return answer.ok ? await dataAddress(await answer.blob()) : null;
  } catch {
    return null;
  }
}

function dataAddress(picture: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.onerror = () => reject(reader.error ?? new Error('the picture cannot be read'));
    reader.readAsDataURL(picture);
  });
}
