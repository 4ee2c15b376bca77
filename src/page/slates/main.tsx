import '../plain-zod.ts';
import '@fontsource/fira-sans/latin-400.css';
import '@fontsource/fira-sans/latin-500.css';
import '@fontsource/fira-sans/latin-ext-400.css';
import '@fontsource/fira-sans/latin-ext-500.css';
import '../style/tokens.css';
import '../style/slates.css';
import { createRoot } from 'react-dom/client';
import { SlatesPage } from './slates-page.tsx';

const place = document.getElementById('page');
if (place === null) throw new Error('expected an element "page" in slates.html, found none');
createRoot(place).render(<SlatesPage />);
