/** One triangle over all of the canvas. */
export const vertexShader = `#version 300 es
void main() {
  vec2 corner = vec2(float((gl_VertexID << 1) & 2), float(gl_VertexID & 2));
  gl_Position = vec4(corner * 2.0 - 1.0, 0.0, 1.0);
}`;

/**
 * Scene light to encoded sRGB, with the steps of `CompiledLook` and of the station's workers in their order: matrix,
 * curve on the largest and the smallest channel, fit, lattice (tetrahedral, by texelFetch: decision 18), output matrix,
 * fit, transfer function of IEC 61966-2-1.
 */
export const fragmentShader = `#version 300 es
precision highp float;
precision highp int;
precision highp sampler2D;
precision highp sampler3D;

uniform sampler2D scene;
uniform bool pixelForPixel;
/** Width and height of the canvas; place in it to place in the scene, both as shares from the left top. */
uniform vec2 canvasSize;
uniform mat3 place;

/** From a place in the scene to half diagonals of the original about its middle: scale, and where that lies. */
uniform vec4 middle;
/** How steep, and 1 where it darkens (falloffGain in the room look); 0: none. */
uniform vec2 falloff;

uniform mat3 toLook;
uniform sampler2D curve;
/** Steps between samples, 0: none; the scene value of white; the slope at black; samples in a row. */
uniform vec4 curveNumbers;
uniform sampler3D lattice;
/** Nodes along an edge, 0: none. */
uniform int nodes;
/** linearEnd, start and reach of the even scale, into and out of the lattice. */
uniform vec3 into;
uniform vec3 outOf;
uniform vec3 workLuminance;
uniform mat3 toOutput;
uniform vec3 outputLuminance;

out vec4 shown;

float curveAt(float light) {
  if (light <= 0.0) return light * curveNumbers.z;
  if (light >= curveNumbers.y) return 1.0;
  float at = sqrt(light / curveNumbers.y) * curveNumbers.x;
  int index = min(int(at), int(curveNumbers.x) - 1);
  int across = int(curveNumbers.w);
  float low = texelFetch(curve, ivec2(index % across, index / across), 0).r;
  float high = texelFetch(curve, ivec2((index + 1) % across, (index + 1) / across), 0).r;
  return low + (high - low) * (at - float(index));
}

vec3 fit(vec3 rgb, vec3 luminance) {
  float high = max(rgb.r, max(rgb.g, rgb.b));
  float low = min(rgb.r, min(rgb.g, rgb.b));
  if (low >= 0.0 && high <= 1.0) return rgb;
  float grey = clamp(dot(luminance, rgb), 0.0, 1.0);
  float keepLow = low < 0.0 ? grey / (grey - low) : 1.0;
  float keepHigh = high > 1.0 ? (1.0 - grey) / (high - grey) : 1.0;
  return grey + min(keepLow, keepHigh) * (rgb - grey);
}

const float ln2 = 0.6931471805599453;

float position(float light) {
  float stops = light <= into.x ? light / (into.x * ln2) : log2(light / into.x) + 1.0 / ln2;
  return clamp((stops - into.y) / into.z, 0.0, 1.0);
}

float lightOf(float value) {
  float stops = outOf.y + value * outOf.z;
  return stops <= 1.0 / ln2 ? stops * outOf.x * ln2 : outOf.x * exp2(stops - 1.0 / ln2);
}

vec3 node(ivec3 at) {
  // Blue lies fastest.
  return texelFetch(lattice, at.bgr, 0).rgb;
}

vec3 throughLattice(vec3 rgb) {
  vec3 cells = vec3(position(rgb.r), position(rgb.g), position(rgb.b)) * float(nodes - 1);
  ivec3 black = min(ivec3(cells), ivec3(nodes - 2));
  vec3 f = cells - vec3(black);
  ivec3 first;
  ivec3 second;
  vec3 order;
  if (f.r >= f.g) {
    if (f.g >= f.b) { first = ivec3(1, 0, 0); second = ivec3(1, 1, 0); order = f.rgb; }
    else if (f.r >= f.b) { first = ivec3(1, 0, 0); second = ivec3(1, 0, 1); order = f.rbg; }
    else { first = ivec3(0, 0, 1); second = ivec3(1, 0, 1); order = f.brg; }
  } else if (f.r >= f.b) { first = ivec3(0, 1, 0); second = ivec3(1, 1, 0); order = f.grb; }
  else if (f.g >= f.b) { first = ivec3(0, 1, 0); second = ivec3(0, 1, 1); order = f.gbr; }
  else { first = ivec3(0, 0, 1); second = ivec3(0, 1, 1); order = f.bgr; }
  vec3 value = (1.0 - order.x) * node(black) + (order.x - order.y) * node(black + first)
    + (order.y - order.z) * node(black + second) + order.z * node(black + ivec3(1));
  return vec3(lightOf(value.r), lightOf(value.g), lightOf(value.b));
}

vec3 encode(vec3 light) {
  vec3 straight = 12.92 * light;
  vec3 curved = 1.055 * pow(max(light, vec3(0.0)), vec3(1.0 / 2.4)) - 0.055;
  return mix(curved, straight, vec3(lessThanEqual(light, vec3(0.0031308))));
}

void main() {
  vec3 light;
  ivec2 pixel = ivec2(gl_FragCoord.x, canvasSize.y - gl_FragCoord.y);
  vec2 share = vec2(gl_FragCoord.x, canvasSize.y - gl_FragCoord.y) / canvasSize;
  if (pixelForPixel) {
    light = texelFetch(scene, pixel, 0).rgb;
  } else {
    vec3 at = place * vec3(share, 1.0);
    share = at.xy / at.z;
    if (any(lessThan(share, vec2(0.0))) || any(greaterThan(share, vec2(1.0)))) {
      // The surround.
      shown = vec4(vec3(119.0 / 255.0), 1.0);
      return;
    }
    light = texture(scene, share).rgb;
  }
  if (falloff.x > 0.0) {
    vec2 away = share * middle.xy - middle.zw;
    float root = 1.0 + falloff.x * dot(away, away);
    light *= falloff.y > 0.5 ? 1.0 / (root * root) : root * root;
  }
  vec3 rgb = toLook * light;
  if (curveNumbers.x > 0.0) {
    float high = max(rgb.r, max(rgb.g, rgb.b));
    float low = min(rgb.r, min(rgb.g, rgb.b));
    float highOut = curveAt(high);
    float lowOut = curveAt(low);
    rgb = lowOut + (high > low ? (highOut - lowOut) / (high - low) : 0.0) * (rgb - low);
  }
  if (nodes > 0) rgb = throughLattice(fit(rgb, workLuminance));
  rgb = fit(toOutput * rgb, outputLuminance);
  shown = vec4(encode(clamp(rgb, 0.0, 1.0)), 1.0);
}`;
