/** A part of a rendering, fetched and decoded to the last pixel. Rejects when it does not come or is given up. */
export async function fetchBitmap(address: string, signal: AbortSignal): Promise<ImageBitmap> {
  const answer = await fetch(address, { signal });
  if (!answer.ok) throw new Error(`expected a picture at ${address}, got ${answer.status}`);
  return createImageBitmap(await answer.blob());
}
