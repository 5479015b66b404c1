#version 300 es
/* A corner of a box is centre + the half-edges u, v, w times -1 or 1; for a mesh u, v, w are the axes. */
precision highp float;
uniform mat4 view;
uniform vec3 eye;
uniform highp int kind;
uniform highp sampler2D palette; /* the colour of each item, 256 a row */
in vec3 corner;
in vec3 centre;
in vec3 u;
in vec3 v;
in vec3 w;
in float item;
out vec3 place_ft;
flat out vec3 paint;
flat out float number;
void main() {
  place_ft = centre + corner.x * u + corner.y * v + corner.z * w;
  /* An edge a little nearer the eye than its faces; pushing the faces back lets edges show through in some drivers. */
  vec3 drawn_ft = kind == 1 ? mix(place_ft, eye, 0.0006) : place_ft;
  gl_Position = view * vec4(drawn_ft, 1.0);
  paint = texelFetch(palette, ivec2(int(item) % 256, int(item) / 256), 0).rgb;
  number = item;
}
