/** `node .cache/bench/make-home.js 20000`: makes a home with so many frames and says where, to look at pages with. */
import { homeOfMany } from './many-frames.ts';

const frames = Number(process.argv[2] ?? 20_000);
if (!Number.isInteger(frames) || frames < 1 || frames > 200_000) {
  console.error('usage: make-home FRAMES, 1 to 200000');
  process.exit(2);
}
console.log(await homeOfMany(frames, (line) => console.error(line)));
