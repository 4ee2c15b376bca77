import { defineConfig } from 'vite';

/**
 * The page: one entry, no inline script or style, no data: addresses, so that it runs under the strictest content
 * security policy the station can send.
 */
export default defineConfig({
  root: 'src/page',
  base: './',
  oxc: { jsx: { runtime: 'automatic' } },
  build: {
    outDir: '../../dist/page',
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    target: 'baseline-widely-available',
  },
});
