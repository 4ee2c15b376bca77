import './plain-zod.ts';
import '@fontsource/fira-sans/latin-400.css';
import '@fontsource/fira-sans/latin-500.css';
import '@fontsource/fira-sans/latin-ext-400.css';
import '@fontsource/fira-sans/latin-ext-500.css';
import './style/tokens.css';
import './style/layout.css';
import './style/top.css';
import './style/picture.css';
import './style/band.css';
import './style/rail.css';
import './style/cards.css';
import './style/far-view.css';
import { createRoot } from 'react-dom/client';
import { SetPage } from './set/set-page.tsx';

const place = document.getElementById('page');
if (place === null) throw new Error('expected an element "page" in index.html, found none');
createRoot(place).render(<SetPage />);
