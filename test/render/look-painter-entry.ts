/** What the test of the painter loads into a page. */
export { identityMatrix } from '../../src/colour/index.ts';
export { readExr } from '../../src/image/index.ts';
export { compileLook } from '../../src/look/index.ts';
export { sceneFacts } from '../../src/page/look/off-thread/scene-read.ts';
export { glPainter } from '../../src/page/look/painter/gl-painter.ts';
export { wholeScene } from '../../src/page/look/painter/painter.ts';
export { lightOf, paintPlain } from '../../src/page/look/painter/plain-tables.ts';
