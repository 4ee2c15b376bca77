/** kernels/acutance-plane.ts */
import { mirrored } from './mirror';

const overshootShare: f32 = 0.125;

/**
 * What acutance makes of lightness, as a factor on it. `taps`: half of the blur, `reach` + 1 32-bit floats; it bounds the
 * result by the range of the square that the blur sees. `scratch`: three planes. `lines`: room for 2 `reach` addresses.
 */
export function lift(
  lightness: usize,
  width: i32,
  height: i32,
  taps: usize,
  reach: i32,
  strength: f32,
  gate: f32,
  scratch: usize,
  lines: usize,
  to: usize,
): void {
  const bytes = <usize>(width * height) << 2;
  const soft = scratch;
  alongRows(lightness, width, height, taps, reach, soft, bytes);
  for (let row = 0; row < height; row++) {
    const line = <usize>(row * width) << 2;
    for (let k = 1; k <= reach; k++) {
      const at = lines + (<usize>(k - 1) << 3);
      store<i32>(at, <i32>soft + ((mirrored(row - k, height) * width) << 2));
      store<i32>(at, <i32>soft + ((mirrored(row + k, height) * width) << 2), 4);
    }
    let x = 0;
    for (; x + 4 <= width; x += 4) {
      finishFour(lightness + line, soft + line, bytes, lines, taps, reach, strength, gate, <usize>x << 2, to + line);
    }
    for (; x < width; x++) {
      finishOne(lightness + line, soft + line, bytes, lines, taps, reach, strength, gate, <usize>x << 2, to + line);
    }
  }
}

/** The blur along rows into a plane, the least and the most within its reach into the two behind it. */
function alongRows(
  from: usize,
  width: i32,
  height: i32,
  taps: usize,
  reach: i32,
  to: usize,
  bytes: usize,
): void {
  for (let row = 0; row < height; row++) {
    const line = <usize>(row * width) << 2;
    let x = 0;
    for (; x < width; x++) {
      if (x == reach) {
        for (; x + 4 <= width - reach; x += 4) {
          const at = from + line + (<usize>x << 2);
          const here = v128.load(at);
          let sum = f32x4.mul(v128.load32_splat(taps), here);
          let least = here;
          let most = here;
          for (let k = 1; k <= reach; k++) {
            const left = v128.load(at - (<usize>k << 2));
            const right = v128.load(at + (<usize>k << 2));
            sum = f32x4.add(sum, f32x4.mul(v128.load32_splat(taps + (<usize>k << 2)), f32x4.add(left, right)));
            least = f32x4.pmin(least, f32x4.pmin(left, right));
            most = f32x4.pmax(most, f32x4.pmax(left, right));
          }
          const out = to + line + (<usize>x << 2);
          v128.store(out, sum);
          v128.store(out + bytes, least);
          v128.store(out + 2 * bytes, most);
        }
        if (x >= width) break;
      }
      const here = load<f32>(from + line + (<usize>x << 2));
      let sum = load<f32>(taps) * here;
      let least = here;
      let most = here;
      for (let k = 1; k <= reach; k++) {
        // What is mirrored lies within reach too.
        const left = load<f32>(from + line + (<usize>mirrored(x - k, width) << 2));
        const right = load<f32>(from + line + (<usize>mirrored(x + k, width) << 2));
        sum += load<f32>(taps + (<usize>k << 2)) * (left + right);
        least = min(least, min(left, right));
        most = max(most, max(left, right));
      }
      const out = to + line + (<usize>x << 2);
      store<f32>(out, sum);
      store<f32>(out + bytes, least);
      store<f32>(out + 2 * bytes, most);
    }
  }
}

@inline
function finishFour(
  lightness: usize,
  soft: usize,
  bytes: usize,
  lines: usize,
  taps: usize,
  reach: i32,
  strength: f32,
  gate: f32,
  at: usize,
  to: usize,
): void {
  let sum = f32x4.mul(v128.load32_splat(taps), v128.load(soft + at));
  let least = v128.load(soft + bytes + at);
  let most = v128.load(soft + 2 * bytes + at);
  for (let k = 1; k <= reach; k++) {
    const pair = lines + (<usize>(k - 1) << 3);
    const up = <usize>load<i32>(pair) + at;
    const down = <usize>load<i32>(pair, 4) + at;
    const both = f32x4.add(v128.load(up), v128.load(down));
    sum = f32x4.add(sum, f32x4.mul(v128.load32_splat(taps + (<usize>k << 2)), both));
    least = f32x4.pmin(least, f32x4.pmin(v128.load(up + bytes), v128.load(down + bytes)));
    most = f32x4.pmax(most, f32x4.pmax(v128.load(up + 2 * bytes), v128.load(down + 2 * bytes)));
  }
  const ones = f32x4.splat(1);
  const gates = f32x4.splat(gate * gate);
  const here = v128.load(lightness + at);
  const detail = f32x4.sub(here, sum);
  const squared = f32x4.mul(detail, detail);
  const above = f32x4.gt(squared, gates);
  const share = f32x4.sub(ones, f32x4.div(gates, squared));
  const more = f32x4.mul(f32x4.mul(f32x4.splat(strength), detail), share);
  const wanted = f32x4.add(here, v128.and(more, above));
  const room = f32x4.mul(f32x4.splat(overshootShare), f32x4.sub(most, least));
  const held = f32x4.pmin(f32x4.add(most, room), f32x4.pmax(f32x4.sub(least, room), wanted));
  const factor = f32x4.div(f32x4.pmax(f32x4.splat(0), held), here);
  v128.store(to + at, v128.bitselect(factor, ones, f32x4.gt(here, ones)));
}

@inline
function finishOne(
  lightness: usize,
  soft: usize,
  bytes: usize,
  lines: usize,
  taps: usize,
  reach: i32,
  strength: f32,
  gate: f32,
  at: usize,
  to: usize,
): void {
  let sum = load<f32>(taps) * load<f32>(soft + at);
  let least = load<f32>(soft + bytes + at);
  let most = load<f32>(soft + 2 * bytes + at);
  for (let k = 1; k <= reach; k++) {
    const pair = lines + (<usize>(k - 1) << 3);
    const up = <usize>load<i32>(pair) + at;
    const down = <usize>load<i32>(pair, 4) + at;
    sum += load<f32>(taps + (<usize>k << 2)) * (load<f32>(up) + load<f32>(down));
    least = min(least, min(load<f32>(up + bytes), load<f32>(down + bytes)));
    most = max(most, max(load<f32>(up + 2 * bytes), load<f32>(down + 2 * bytes)));
  }
  const here = load<f32>(lightness + at);
  const detail = here - sum;
  const squared = detail * detail;
  let wanted = here;
  if (squared > gate * gate) wanted += strength * detail * (1 - (gate * gate) / squared);
  const room = overshootShare * (most - least);
  const held = min(most + room, max(least - room, wanted));
  store<f32>(to + at, here > 1 ? max(<f32>0, held) / here : 1);
}
