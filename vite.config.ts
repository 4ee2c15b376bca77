import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

/**
 * The pages: one document for all of them; no inline script or style, no data: addresses, so that it runs under the strictest content
 * security policy the station can send.
 */
export default defineConfig({
  root: 'src/page',
  base: './',
  oxc: { jsx: { runtime: 'automatic' } },
  build: {
    rollupOptions: {
      input: fileURLToPath(new URL('src/page/index.html', import.meta.url)),
    },
    outDir: '../../dist/page',
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: 'baseline-widely-available',
  },
});
