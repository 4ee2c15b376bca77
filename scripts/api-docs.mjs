/** Writes docs/api.md from the OpenAPI document of the built web door: `npx tsc -b tsconfig.node.json` first. */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');
const { apiPage } = await import(join(root, 'dist/serve/api-page.js'));
const { createWebApp } = await import(join(root, 'dist/serve/assembly.js'));
const { DeskFake } = await import(join(root, 'dist/serve/testing/desk-fake.js'));

const app = await createWebApp({ pageDir: root, version: '0' }, new DeskFake(), () => {});
await writeFile(join(root, 'docs/api.md'), apiPage(app.swagger()));
await app.close();
