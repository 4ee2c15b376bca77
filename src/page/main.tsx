import './plain-zod.ts';
import '@fontsource/fira-sans/latin-400.css';
import '@fontsource/fira-sans/latin-500.css';
import '@fontsource/fira-sans/latin-ext-400.css';
import '@fontsource/fira-sans/latin-ext-500.css';
import './style/tokens.css';
import './style/cards.css';
import type { ReactNode } from 'react';
import { createRoot } from 'react-dom/client';
import { enterLabels, guestLabels, pocketLabels } from '../words/index.ts';

interface PageOfHouse {
  readonly title: string;
  readonly load: () => Promise<() => ReactNode>;
}

const house: PageOfHouse = {
  title: 'Set',
  load: async () => (await import('./app.tsx')).App,
};

/** The pages by their addresses. Each is loaded when it is wanted: a device that comes in needs a small part only. */
const pages: Readonly<Record<string, PageOfHouse>> = {
  '/in': {
    title: enterLabels.title,
    load: async () => (await import('./enter/enter-page.tsx')).EnterPage,
  },
  '/pocket': {
    title: pocketLabels.title,
    load: async () => (await import('./pocket/pocket-page.tsx')).PocketPage,
  },
  '/guest': {
    title: guestLabels.title,
    load: async () => (await import('./guest/guest-page.tsx')).GuestPage,
  },
};

const place = document.getElementById('page');
if (place === null) throw new Error('expected an element "page" in index.html, found none');
const root = createRoot(place);
const { title, load } = pages[location.pathname] ?? house;
document.title = `${title} - Setside`;
const Page = await load();
root.render(<Page />);
