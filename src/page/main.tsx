import './plain-zod.ts';
// Every part of the type that there is, each with its range of letters: a browser fetches those alone that a page writes in.
import '@fontsource/fira-sans/400.css';
import '@fontsource/fira-sans/500.css';
import '@fontsource/fira-mono/400.css';
import '@fontsource/fira-mono/500.css';
import './style/tokens.css';
import './style/cards.css';
import type { ReactNode } from 'react';
import { createRoot } from 'react-dom/client';

/** The pages by their addresses. Each is loaded when it is wanted: a device that comes in needs a small part only. */
const pages: Readonly<Record<string, () => Promise<() => ReactNode>>> = {
  '/in': async () => (await import('./enter/enter-page.tsx')).EnterPage,
  '/pocket': async () => (await import('./pocket/pocket-door.tsx')).PocketDoor,
  '/guest': async () => (await import('./guest/guest-page.tsx')).GuestPage,
  '/slates': async () => (await import('./slates/slates-page.tsx')).SlatesPage,
  '/look': async () => (await import('./look/look-page.tsx')).LookPage,
  '/clock': async () => (await import('./clock/clock-page.tsx')).ClockPage,
};
const house = async (): Promise<() => ReactNode> => (await import('./app.tsx')).App;

const place = document.getElementById('page');
if (place === null) throw new Error('expected an element "page" in index.html, found none');
const root = createRoot(place);
const load = pages[location.pathname] ?? house;
const Page = await load();
root.render(<Page />);
