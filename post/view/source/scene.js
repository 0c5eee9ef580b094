// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel on the graphics card: coloured surface, sharp edges, parallel projection. Draws when
// something has changed and never otherwise.
import {
  Box3,
  BufferAttribute,
  BufferGeometry,
  Group,
  LineSegments,
  Mesh,
  OrthographicCamera,
  Raycaster,
  Scene as ThreeScene,
  ShaderMaterial,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';

import { colourTexture, fraction, rgb } from './scale.js';

const notComputed = -10; // where a value should stand as a fraction of the scale

const vertexShader = `
attribute float level;
varying float vLevel;
varying vec3 vNormal;
void main() {
  vLevel = level;
  vNormal = normalMatrix * normal;
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}`;

// The light comes from above left behind the eye, as in the pictures of the report.
const fragmentShader = `
uniform sampler2D colours;
uniform vec3 beyond;
uniform float rated;
varying float vLevel;
varying vec3 vNormal;
void main() {
  float light = 0.62 + 0.43 * max(dot(normalize(vNormal), normalize(vec3(-0.5, 0.6, 1.0))), 0.0);
  vec3 colour = texture2D(colours, vec2(vLevel, 0.5)).rgb;
  if (vLevel > 1.0001) colour = beyond;
  if (vLevel < -5.0 || rated < 0.5) colour = vec3(0.66, 0.67, 0.69);
  gl_FragColor = vec4(min(light, 1.0) * colour, 1.0);
}`;

// Small shaders of our own: a processor that stands in for a graphics card compiles them at once.
const edgeVertexShader = `
void main() {
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}`;
const edgeFragmentShader = `
void main() {
  gl_FragColor = vec4(0.17, 0.18, 0.21, 1.0);
}`;

export const directions = {
  outboard: new Vector3(0.24, 0.17, 1).normalize(),
  inboard: new Vector3(-0.17, 0.12, -1).normalize(),
};

/** Smooth edges where there is a graphics card; without one they cost more time than all else. */
function context(canvas) {
  const found =
    canvas.getContext('webgl2', { antialias: true, alpha: true, failIfMajorPerformanceCaveat: true }) ??
    canvas.getContext('webgl2', { antialias: false, alpha: true });
  if (!found) throw Object.assign(new Error('no WebGL 2'), { noGraphics: true });
  return found;
}

export class Scene {
  /**
   * @param size     width and height of the canvas in the page
   * @param changed  called after every picture, and with true once the view has come to rest
   */
  constructor(surface, canvas, size, changed) {
    this.surface = surface;
    this.canvas = canvas;
    this.changed = changed;
    this.density = Math.min(window.devicePixelRatio, 2);
    // Before there is a context: every later change of size makes its memory anew.
    [canvas.width, canvas.height] = this.pixelsOf(size);
    this.renderer = new WebGLRenderer({ canvas, context: context(canvas) });
    this.renderer.debug.checkShaderErrors = false; // the shaders are known; asking waits for them
    this.camera = new OrthographicCamera();
    this.scene = new ThreeScene();
    this.addSurface();
    this.box = new Box3().setFromObject(this.wheel, true);
    this.middle = this.box.getCenter(new Vector3());
    this.reach = this.box.getSize(new Vector3()).length();
    this.addControls();
    this.look(this.middle, directions.outboard, 1);
    this.resize(...size);
    canvas.addEventListener('webglcontextrestored', () => this.invalidate());
  }

  addSurface() {
    const { sectors, positions, normals, triangles, edges } = this.surface;
    this.geometry = new BufferGeometry();
    this.geometry.setAttribute('position', new BufferAttribute(positions, 3));
    this.geometry.setAttribute('normal', new BufferAttribute(normals, 3));
    this.geometry.setAttribute('level', new BufferAttribute(new Float32Array(positions.length / 3), 1));
    this.geometry.setIndex(new BufferAttribute(triangles.slice(), 1));
    this.colours = { colours: { value: null }, beyond: { value: null } };
    const material = (rated) =>
      new ShaderMaterial({
        vertexShader,
        fragmentShader,
        uniforms: { ...this.colours, rated: { value: rated } },
        polygonOffset: true, // edges stay in front
        polygonOffsetFactor: 1,
        polygonOffsetUnits: 1,
      });
    this.materials = [material(1), material(0)]; // coloured, grey
    this.wheel = new Group();
    for (let s = 0; s < sectors; ++s) {
      const mesh = new Mesh(this.geometry, this.materials);
      mesh.rotation.z = (2 * Math.PI * s) / sectors;
      this.wheel.add(mesh);
    }
    this.wheel.updateMatrixWorld();
    const lines = new BufferGeometry();
    lines.setAttribute('position', new BufferAttribute(edges, 3));
    const black = new ShaderMaterial({
      vertexShader: edgeVertexShader,
      fragmentShader: edgeFragmentShader,
    });
    this.scene.add(this.wheel, new LineSegments(lines, black));
  }

  addControls() {
    this.controls = new OrbitControls(this.camera, this.canvas);
    this.controls.enableDamping = false;
    this.controls.zoomToCursor = true;
    this.controls.minZoom = 0.5;
    this.controls.maxZoom = 200;
    this.controls.addEventListener('change', () => this.invalidate());
    this.controls.addEventListener('start', () => (this.flight = null));
  }

  /** Triangles with a 1 become grey. */
  markGrey(grey) {
    const { triangles } = this.surface;
    const { index } = this.geometry;
    this.geometry.clearGroups();
    let end = 0;
    for (const wanted of [0, 1]) {
      const begin = end;
      for (let t = 0; t < grey.length; ++t)
        if (grey[t] === wanted)
          for (let corner = 0; corner < 3; ++corner) index.array[end++] = triangles[3 * t + corner];
      this.geometry.addGroup(begin, end - begin, wanted);
    }
    index.needsUpdate = true;
  }

  /** Colours by the quantity, from the low to the high end of its scale, and beyond that. */
  show(quantity, { colours, beyond }) {
    const level = this.geometry.getAttribute('level');
    for (let i = 0; i < level.count; ++i) {
      const value = quantity.at(i);
      level.array[i] =
        value === undefined ? notComputed : Math.min(Math.max(fraction(value, quantity), -1), 2);
    }
    level.needsUpdate = true;
    this.colours.colours.value?.dispose();
    this.colours.colours.value = colourTexture(colours);
    this.colours.beyond.value = rgb(beyond);
    this.invalidate();
  }

  pixelsOf(size) {
    return size.map((length) => Math.max(1, Math.floor(this.density * length)));
  }

  resize(width, height) {
    if (!width || !height || (width === this.width && height === this.height)) return;
    const [across, down] = this.pixelsOf([width, height]);
    if (across !== this.canvas.width || down !== this.canvas.height)
      this.renderer.setSize(across, down, false);
    this.width = width;
    this.height = height;
    // The whole wheel fits in, however it is turned.
    const half = 0.5 * this.box.getSize(new Vector3()).length() * 0.8;
    const aspect = width / height;
    this.camera.top = half * Math.max(1, 1 / aspect);
    this.camera.right = this.camera.top * aspect;
    this.camera.bottom = -this.camera.top;
    this.camera.left = -this.camera.right;
    this.camera.near = 0.1;
    this.camera.far = 4 * this.reach;
    this.camera.updateProjectionMatrix();
    this.invalidate();
  }

  /** At once. `towardsEye`: unit; zoom 1 shows the whole wheel. */
  look(target, towardsEye, zoom) {
    this.controls.target.copy(target);
    this.camera.position.copy(target).addScaledVector(towardsEye, 2 * this.reach);
    this.camera.zoom = zoom;
    this.camera.updateProjectionMatrix();
    this.controls.update();
    this.invalidate();
  }

  /** The same on the way of half a second, unless the reader wants no motion. */
  fly(target, towardsEye, zoom) {
    if (window.matchMedia('(prefers-reduced-motion: reduce)').matches) {
      this.look(target, towardsEye, zoom);
      return;
    }
    const from = {
      target: this.controls.target.clone(),
      direction: this.camera.position.clone().sub(this.controls.target).normalize(),
      zoom: this.camera.zoom,
    };
    // Half way round there is no shortest way: go past the side.
    if (from.direction.dot(towardsEye) < -0.98) from.direction.x += 0.3;
    this.flight = { from, to: { target, towardsEye, zoom }, began: performance.now() };
    this.invalidate();
  }

  advance(now) {
    const { from, to, began } = this.flight;
    const share = Math.min(1, (now - began) / 500);
    const s = share * share * (3 - 2 * share);
    if (share === 1) this.flight = null;
    const direction = from.direction.clone().lerp(to.towardsEye, s).normalize();
    const zoom = from.zoom * (to.zoom / from.zoom) ** s;
    this.look(from.target.clone().lerp(to.target, s), direction, zoom);
  }

  invalidate() {
    if (!this.width) return; // not in the page yet
    this.canvas.dataset.state = 'moving';
    this.frame ??= requestAnimationFrame((now) => {
      this.frame = undefined;
      if (this.flight) this.advance(now);
      this.renderer.render(this.scene, this.camera);
      this.changed(false);
      clearTimeout(this.rest);
      this.rest = setTimeout(() => {
        this.changed(true);
        this.canvas.dataset.state = 'at rest';
      }, 120);
    });
  }

  /** Pixels from the left upper corner of the canvas. */
  pixel(position) {
    const p = new Vector3(...position).project(this.camera);
    return [((p.x + 1) / 2) * this.width, ((1 - p.y) / 2) * this.height];
  }

  /**
   * The computed point next to what is seen at these pixels, with its position and whether its
   * surface may be judged; undefined beside the wheel.
   */
  pointAt(x, y) {
    const ray = new Raycaster();
    this.camera.updateMatrixWorld(); // it may have moved since the last picture
    ray.setFromCamera(new Vector2((2 * x) / this.width - 1, 1 - (2 * y) / this.height), this.camera);
    const hit = ray.intersectObject(this.wheel)[0];
    if (!hit) return undefined;
    const corners = [hit.face.a, hit.face.b, hit.face.c].map((point) => ({
      point,
      rated: hit.face.materialIndex === 0,
      position: new Vector3()
        .fromArray(this.surface.positions, 3 * point)
        .applyMatrix4(hit.object.matrixWorld),
    }));
    const away = ({ position }) => position.distanceToSquared(hit.point);
    return corners.reduce((best, corner) => (away(corner) < away(best) ? corner : best));
  }

  /** True when nothing stands between the point and an eye far away in that direction. */
  seenFrom(position, towardsEye) {
    const start = new Vector3(...position).addScaledVector(towardsEye, 0.3);
    return new Raycaster(start, towardsEye).intersectObject(this.wheel).length === 0;
  }

  towardsEye() {
    return this.camera.position.clone().sub(this.controls.target).normalize();
  }
}
