import { useSyncExternalStore } from 'react';

/**
 * The frame that the client is shown, chosen on the Sheet page; null while the client's screen follows the newest. It is kept in
 * the browser, so that a second window of the same computer hears of it, and one that is opened later knows it.
 */
const place = 'setside.client-frame';
const heard = 'setside-client-frame';

export function useClientFrame(): string | null {
  return useSyncExternalStore(listen, read);
}

export function showToClient(frame: string | null): void {
  try {
    if (frame === null) localStorage.removeItem(place);
    else localStorage.setItem(place, frame);
  } catch {
    // A browser that keeps nothing shows the client the newest.
  }
  // A window is not told of what it stored itself.
  dispatchEvent(new Event(heard));
}

function listen(changed: () => void): () => void {
  addEventListener('storage', changed);
  addEventListener(heard, changed);
  return () => {
    removeEventListener('storage', changed);
    removeEventListener(heard, changed);
  };
}

function read(): string | null {
  try {
    return localStorage.getItem(place);
  } catch {
    return null;
  }
}
