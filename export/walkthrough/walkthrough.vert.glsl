#version 300 es
/* A corner of a box is centre + the half-edges u, v, w times -1 or 1; for a mesh u, v, w are the axes. */
uniform mat4 view;
in vec3 corner;
in vec3 centre;
in vec3 u;
in vec3 v;
in vec3 w;
in vec3 colour;
in float item;
out vec3 place_ft;
flat out vec3 paint;
flat out float number;
void main() {
  place_ft = centre + corner.x * u + corner.y * v + corner.z * w;
  gl_Position = view * vec4(place_ft, 1.0);
  paint = colour;
  number = item;
}
