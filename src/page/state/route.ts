/**
 * Which page the address names, by what stands behind its `#`: that part never leaves the browser, and one document
 * serves them all. Anything unknown is the Set page.
 */
export type Route =
  | { readonly page: 'set' }
  /** `job` null: the open one, else the newest. */
  | { readonly page: 'job'; readonly job: string | null }
  /** `job` as above. */
  | { readonly page: 'sheet'; readonly job: string | null }
  | { readonly page: 'client' }
  | { readonly page: 'call-sheet'; readonly job: string }
  /** `job` null: the open one. */
  | { readonly page: 'strike'; readonly job: string | null }
  /** `job` null: of all jobs. */
  | { readonly page: 'hand-over'; readonly job: string | null }
  | { readonly page: 'line' }
  | { readonly page: 'camera-sheet'; readonly camera: string };

export function routeOf(hash: string): Route {
  const [page, of] = hash.replace(/^#\/?/, '').split('/');
  const code = decoded(of ?? '');
  if (page === 'line' || page === 'client') return { page };
  if (page === 'job' || page === 'sheet' || page === 'strike' || page === 'hand-over')
    return { page, job: code };
  if (page === 'call-sheet' && code !== null) return { page, job: code };
  if (page === 'camera-sheet' && code !== null) return { page, camera: code };
  return { page: 'set' };
}

/** What goes behind the address of the document, `#` and all. */
export function addressOf(route: Route): string {
  if (route.page === 'set') return '#/';
  if (route.page === 'line' || route.page === 'client') return `#/${route.page}`;
  if (route.page === 'camera-sheet') return `#/camera-sheet/${encodeURIComponent(route.camera)}`;
  if (route.job === null) return `#/${route.page}`;
  return `#/${route.page}/${encodeURIComponent(route.job)}`;
}

/** Null for nothing, and for what is no encoding of a text. */
function decoded(part: string): string | null {
  try {
    return part === '' ? null : decodeURIComponent(part);
  } catch {
    return null;
  }
}
