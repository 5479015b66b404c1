#version 300 es
precision highp float;
uniform vec3 eye;
uniform float opacity;
uniform highp int kind; /* 0 a face, 1 an edge, 2 the number of the item and how far it is as a colour, for pointing */
in vec3 place_ft;
flat in vec3 paint;
flat in float number;
out vec4 pixel;
void main() {
  if (kind == 2) {
    float n = number + 1.0;
    float far = floor(gl_FragCoord.z * 65535.0);
    pixel = vec4(mod(n, 256.0), floor(n / 256.0), mod(far, 256.0), floor(far / 256.0)) / 255.0;
  } else if (kind == 1) {
    pixel = vec4(0.08, 0.12, 0.16, opacity);
  } else {
    vec3 normal = normalize(cross(dFdx(place_ft), dFdy(place_ft)));
    if (dot(normal, eye - place_ft) < 0.0) normal = -normal;
    float light = 0.76 + 0.22 * dot(normal, normalize(vec3(-0.35, -0.65, 0.6))) + 0.05 * normal.z;
    pixel = vec4(paint * light, opacity);
  }
}
