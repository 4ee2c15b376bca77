import { type Destination, destination } from '../contract/index.ts';
import type { DestinationBook } from '../station/index.ts';
import { sendJson } from './station-calls.ts';

/**
 * Another name for a destination. A station that runs does it, since it alone knows which deliveries are on their way there:
 * then rejects `destination-busy`. Otherwise the book does. Rejects `no-destination`, `destination-there`.
 */
export async function renameDestination(
  station: string | null,
  book: Pick<DestinationBook, 'rename'>,
  { name, place }: Destination,
  to: string,
): Promise<Destination> {
  if (station === null || name === to) return book.rename(name, to);
  const path = `/api/v1/destinations/${encodeURIComponent(name)}`;
  return destination.parse(await (await sendJson(station, 'PUT', path, { place, name: to })).json());
}
