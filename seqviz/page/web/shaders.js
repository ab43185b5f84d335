/**
 * What the graphics do with each corner and pixel. All corners stand where they belong, in the base's frame. Each part
 * has one row in a texture: a cell with how far it is off its place and how it is drawn (0 not, 1 whole, 2 as a ghost),
 * one with colour and pattern (+ 32 where it is new). So a step changes a few numbers and no mesh.
 */

const HEAD = `precision highp float;
precision highp sampler2D;
`;

const PARTS = `${HEAD}
uniform sampler2D parts;
uniform mat4 modelViewMatrix, projectionMatrix;
uniform vec2 size;   // of the canvas, in its pixels
uniform float dense; // its pixels for one of the page's
vec4 cell(float part, int k) { return texelFetch(parts, ivec2(k, int(part + 0.5)), 0); }
vec3 inBase(float part, vec3 p) { return p + cell(part, 0).xyz; }
const vec4 NOWHERE = vec4(2.0, 2.0, 2.0, 1.0);
`;

/** Flat, and the same from both sides: the face's own slope as it is seen. Three lamps beside the camera. */
const LIGHT = `
float lit(vec3 at) {
  vec3 n = normalize(cross(dFdx(at), dFdy(at)));
  float sum = 0.55 * max(0.0, dot(n, normalize(vec3(-0.5, 0.8, 1.0))));
  sum += 0.25 * max(0.0, dot(n, normalize(vec3(0.9, 0.2, 1.0))));
  sum += 0.12 * max(0.0, dot(n, normalize(vec3(0.0, -0.9, 0.6))));
  return 0.5 + 0.62 * sum;
}
`;

/** Patterns in the pixels of the page; 0 is plain. Told apart without colour. */
export const PATTERNS = 8;
const PATTERN = `
float stripe(float x, float wide) { return 1.0 - step(wide, mod(x, 9.0)); }
float inked(float pattern, vec2 p) {
  if (pattern < 0.5) return 0.0;
  if (pattern < 1.5) return stripe((p.x + p.y) * 0.7071, 1.3);
  if (pattern < 2.5) return 1.0 - step(1.5, length(mod(p, 7.0) - 3.5));
  if (pattern < 3.5) return stripe((p.x - p.y) * 0.7071, 1.3);
  if (pattern < 4.5) return stripe(p.y, 1.2);
  if (pattern < 5.5) return max(stripe((p.x + p.y) * 0.7071, 1.2), stripe((p.x - p.y) * 0.7071, 1.2));
  if (pattern < 6.5) return stripe(p.x, 1.2);
  return max(stripe(p.x, 1.2), stripe(p.y, 1.2));
}
`;

export const BODY = {
  vertex: `${PARTS}
in vec3 position; in float part;
out vec3 at; flat out vec4 look; flat out float who;
void main() {
  vec4 here = modelViewMatrix * vec4(inBase(part, position), 1.0);
  at = here.xyz; look = cell(part, 1); who = part;
  gl_Position = projectionMatrix * here;
}`,
  fragment: `${HEAD}${LIGHT}${PATTERN}
uniform float dense, opacity; uniform vec3 hatch;
in vec3 at; flat in vec4 look; flat in float who;
out vec4 pixel;
void main() {
  vec3 fill = look.rgb * lit(at);
  float ink = inked(mod(look.a, 32.0), gl_FragCoord.xy / dense);
  pixel = vec4(mix(fill, hatch, 0.62 * ink), opacity);
}`,
};

/** Each part in a colour that says which it is. */
export const WHO = {
  vertex: BODY.vertex,
  fragment: `${HEAD}
in vec3 at; flat in vec4 look; flat in float who;
out vec4 pixel;
void main() {
  float k = floor(who + 1.5);
  pixel = vec4(mod(k, 256.0), floor(k / 256.0), 0.0, 255.0) / 255.0;
}`,
};

/** A hair nearer to the eye than the faces that they bound; less than the thinnest sheet. */
const NEARER = `
vec4 nearer(vec4 here, float mm) { here.xyz *= 1.0 - mm / max(1.0, length(here.xyz)); return here; }
`;

export const LINE = {
  vertex: `${PARTS}${NEARER}
uniform vec3 line, lineNew;
in vec3 position; in float part;
flat out vec3 colour;
void main() {
  colour = cell(part, 1).a > 31.5 ? lineNew : line;
  gl_Position = projectionMatrix * nearer(modelViewMatrix * vec4(inBase(part, position), 1.0), 0.3);
}`,
  fragment: `${HEAD}
uniform float opacity; flat in vec3 colour; out vec4 pixel;
void main() { pixel = vec4(colour, opacity); }`,
};

/** Lines with a width, as four-cornered strips; `part` below 0: in the base's frame. */
export const STROKE = {
  vertex: `${PARTS}${NEARER}
uniform float wide, pull;
in vec3 position; in vec3 from, to; in float part;
vec4 seen(vec3 p) {
  return projectionMatrix * nearer(modelViewMatrix * vec4(part < 0.0 ? p : inBase(part, p), 1.0), pull);
}
void main() {
  if (part >= 0.0 && cell(part, 0).w < 0.5) { gl_Position = NOWHERE; return; }
  vec4 a = seen(from), b = seen(to);
  if (a.w <= 0.0 || b.w <= 0.0) { gl_Position = NOWHERE; return; }
  vec2 way = (b.xy / b.w - a.xy / a.w) * size;
  way = length(way) > 1e-3 ? normalize(way) : vec2(1.0, 0.0);
  vec4 end = position.x < 0.5 ? a : b;
  vec2 aside = vec2(-way.y, way.x) * position.y + way * (position.x - 0.5);
  end.xy += aside * wide * dense / size * end.w;
  gl_Position = end;
}`,
  fragment: `${HEAD}
uniform vec3 colour; uniform float opacity; out vec4 pixel;
void main() { pixel = vec4(colour, opacity); }`,
};

/** Heads, tails and pins: one shape of unit size, put on its face. */
export const FIXING = {
  vertex: `${PARTS}
in vec3 position; in float edge;
in vec3 spot, outward; in vec4 look; // wide, high, part, new
out vec3 at; out float rim; flat out float fresh;
void main() {
  if (cell(look.z, 0).w < 0.5) { gl_Position = NOWHERE; return; }
  vec3 a = normalize(abs(outward.x) < 0.7 ? cross(outward, vec3(1, 0, 0)) : cross(outward, vec3(0, 1, 0)));
  vec3 b = cross(outward, a);
  vec3 p = (a * position.x + b * position.y) * look.x * 0.5 + outward * position.z * look.y;
  vec4 here = modelViewMatrix * vec4(spot + p + cell(look.z, 0).xyz, 1.0);
  at = here.xyz; rim = edge; fresh = look.w;
  gl_Position = projectionMatrix * here;
}`,
  fragment: `${HEAD}${LIGHT}
uniform vec3 fill, fillNew, rimInk;
in vec3 at; in float rim; flat in float fresh;
out vec4 pixel;
void main() {
  vec3 colour = (fresh > 0.5 ? fillNew : fill) * lit(at);
  float wide = fwidth(rim);
  float line = smoothstep(0.86 - wide, 0.86 + wide, rim) * (1.0 - smoothstep(0.25, 0.6, wide));
  pixel = vec4(mix(colour, rimInk, 0.85 * line), 1.0);
}`,
};

/** The same from afar: 0 heads, round; 1 tails, square; 2 pins, on their corners. */
export const DOT = {
  vertex: `${PARTS}${NEARER}
in vec3 position, outward; in vec4 look; in float kind;
out float what; out float fresh; out float halfWide;
void main() {
  if (cell(look.z, 0).w < 0.5) { gl_Position = NOWHERE; return; }
  vec4 here = modelViewMatrix * vec4(position + 0.5 * look.y * outward + cell(look.z, 0).xyz, 1.0);
  float perMm = projectionMatrix[1][1] * size.y * 0.5 / max(1.0, -here.z);
  gl_Position = projectionMatrix * nearer(here, 0.3);
  gl_PointSize = max(2.0 * dense, look.x * perMm * (kind > 1.5 ? 1.4 : 1.0));
  what = kind; fresh = look.w; halfWide = gl_PointSize * 0.5;
}`,
  fragment: `${HEAD}
uniform vec3 fill, fillPin, fillNew, rimInk;
in float what; in float fresh; in float halfWide;
out vec4 pixel;
void main() {
  vec2 p = abs(gl_PointCoord - 0.5) * 2.0;
  float away = what < 0.5 ? length(p) : what < 1.5 ? max(p.x, p.y) * 1.1 : p.x + p.y;
  if (away > 1.0) discard;
  vec3 colour = fresh > 0.5 ? fillNew : what > 1.5 ? fillPin : fill * (what > 0.5 ? 0.86 : 1.0);
  pixel = vec4(halfWide > 1.6 && (1.0 - away) * halfWide < 0.9 ? rimInk : colour, 1.0);
}`,
};

/** Signs on holes: always upright, the same size everywhere, not seen from behind. */
export const MARK = {
  vertex: `${PARTS}${NEARER}
uniform float radius, apart, kinds, always; // page's pixels; mm between neighbours
in vec3 position, outward; in vec2 look; // part, kind
out float kind;
void main() {
  vec3 off = look.x < 0.0 ? vec3(0.0) : cell(look.x, 0).xyz;
  vec4 here = modelViewMatrix * vec4(position + off, 1.0);
  vec3 facing = mat3(modelViewMatrix) * outward;
  bool gone = look.x >= 0.0 && cell(look.x, 0).w < 0.5;
  if (gone || (always < 0.5 && dot(facing, -normalize(here.xyz)) < 0.06)) { gl_Position = NOWHERE; return; }
  float perMm = projectionMatrix[1][1] * size.y * 0.5 / max(1.0, -here.z) / dense;
  float r = clamp(0.42 * apart * perMm, 4.0, clamp(size.y / dense / 42.0, 7.0, radius));
  kind = look.y;
  gl_Position = projectionMatrix * nearer(here, min(1.2 * r / perMm, 25.0));
  gl_PointSize = 7.0 * r * dense;
}`,
  fragment: `${HEAD}
uniform sampler2D signs; uniform float kinds;
in float kind; out vec4 pixel;
void main() {
  pixel = texture(signs, vec2((gl_PointCoord.x + floor(kind + 0.5)) / kinds, gl_PointCoord.y));
  if (pixel.a < 0.5) discard;
}`,
};

/** Plain bodies beside the parts: a tool, an arrow, the bench. */
export const PLAIN = {
  vertex: `${HEAD}
uniform mat4 modelViewMatrix, projectionMatrix;
in vec3 position; out vec3 at; out vec2 flatAt;
void main() {
  vec4 here = modelViewMatrix * vec4(position, 1.0);
  at = here.xyz; flatAt = position.xy;
  gl_Position = projectionMatrix * here;
}`,
  fragment: `${HEAD}${LIGHT}
uniform vec3 fill; uniform float opacity;
in vec3 at; in vec2 flatAt; out vec4 pixel;
void main() { pixel = vec4(fill * lit(at), opacity); }`,
};
