"""Heat that leaves a closed box, from first principles: two films and a wall per uncovered face.

Relations: Churchill & Chu 1975 for vertical faces, handbook relations for plates (0.54 and 0.15
for the unstable, 0.27 for the stable side), air of the US Standard Atmosphere 1976, radiation with
sigma 5.670374e-8. Written apart from the product, to judge what it prints."""
import math

SIGMA = 5.670374e-8
ZERO_C = 273.15


def pressure(altitude_m):
    """Pa at a height, US Standard Atmosphere 1976 below 11 km."""
    return 101325.0 * (1 - 0.0065 * altitude_m / 288.15) ** 5.25588


class Air:
    def __init__(self, kelvin, pascal):
        density = pascal / (287.053 * kelvin)
        viscosity = 1.458e-6 * kelvin ** 1.5 / (kelvin + 110.4)
        self.conductivity = 2.64638e-3 * kelvin ** 1.5 / (kelvin + 245.4 * 10 ** (-12 / kelvin))
        self.kinematic = viscosity / density
        self.diffusivity = self.conductivity / (density * 1006.0)
        self.prandtl = self.kinematic / self.diffusivity
        self.expansion = 1 / kelvin

    def rayleigh(self, difference, length):
        return (9.80665 * self.expansion * abs(difference) * length ** 3 /
                (self.kinematic * self.diffusivity))


def film(lie, unstable, length, wall_k, air_k, pascal):
    """Natural convection, W/(m²K)."""
    air = Air((wall_k + air_k) / 2, pascal)
    number = air.rayleigh(wall_k - air_k, length)
    if lie == "vertical":
        shape = (1 + (0.492 / air.prandtl) ** (9 / 16)) ** (8 / 27)
        nusselt = (0.825 + 0.387 * number ** (1 / 6) / shape) ** 2
    elif unstable:
        nusselt = max(0.54 * number ** 0.25, 0.15 * number ** (1 / 3))
    else:
        nusselt = 0.27 * number ** 0.25
    return nusselt * air.conductivity / length


def radiation(emissivity, one_k, other_k):
    return emissivity * SIGMA * (one_k ** 2 + other_k ** 2) * (one_k + other_k)


# Free fronts (front and rear), free sides, free top, free floor. Against a wall the rear is
# covered; the floor counts where the box hangs.
FREE_FACES = {"free": (2, 2, 1, 0), "wall": (1, 2, 1, 1), "row_end_free": (2, 1, 1, 0),
              "row_end_wall": (1, 1, 1, 1), "row_middle_free": (2, 0, 1, 0),
              "row_middle_wall": (1, 0, 1, 1), "row_middle_wall_covered": (1, 0, 0, 1)}


class Box:
    """Outside sizes in m; surface data as a dictionary; flow of a filter fan in m³/h."""

    def __init__(self, height, width, depth, surface, altitude_m=0, stirred_film=None,
                 mounting="wall", flow_m3h=0.0, sun_w_m2=0.0, enclosures=1):
        """`enclosures`: equal ones side by side, covered at their joints. `sun_w_m2`: absorbed where the sun falls square; it stands where it meets most of the
        front, one free side and the top."""
        self.surface, self.stirred, self.flow_m3h = surface, stirred_film, flow_m3h
        self.pascal = pressure(altitude_m)
        fronts, sides, top, floor = FREE_FACES[mounting]
        plan = enclosures * width * depth
        length = width * depth / (2 * (width + depth))
        front, side = enclosures * width * height, depth * height * min(sides, 1)
        met = math.sqrt(front ** 2 + side ** 2 + (top * plan) ** 2)
        per_area = sun_w_m2 / met
        self.faces = [("vertical", (fronts - 1) * front, height, 0.0),
                      ("vertical", front, height, per_area * front),
                      ("vertical", side, height, per_area * side),
                      ("vertical", depth * height * max(0, sides - 1), height, 0.0),
                      ("top", top * plan, length, per_area * top * plan),
                      ("floor", floor * plan, length, 0.0)]

    def flow(self, face, inside_k, outside_k):
        """W through one face: bisection on the outer wall temperature."""
        lie, area, length, sun = face
        unstable = lie == "top"
        outer = "vertical" if lie == "vertical" else "plate"
        low, high = outside_k, inside_k + (300 if sun else 0)
        resistance = self.surface["wall_m"] / self.surface["wall_conductivity"]
        for _ in range(60):
            wall_out = (low + high) / 2
            out = (film(outer, unstable, length, wall_out, outside_k, self.pascal) +
                   radiation(self.surface["emissivity_out"], wall_out, outside_k))
            flux = out * (wall_out - outside_k) - sun
            wall_in = wall_out + flux * resistance
            hot_ceiling = wall_in > inside_k
            inner = self.stirred if self.stirred else film(
                outer, unstable and not hot_ceiling, length, wall_in, inside_k, self.pascal)
            inner += radiation(self.surface["emissivity_in"], inside_k, wall_in)
            if inner * (inside_k - wall_in) > flux:
                low = wall_out
            else:
                high = wall_out
        return area * flux

    def heat(self, inside_c, outside_c):
        """W that leave with the inside air at `inside_c` and the outside air at `outside_c`."""
        if inside_c <= outside_c:
            return 0.0
        through_walls = math.fsum(self.flow(face, inside_c + ZERO_C, outside_c + ZERO_C)
                                  for face in self.faces)
        density = self.pascal / (287.053 * (outside_c + ZERO_C))
        with_air = self.flow_m3h * density * 1006.0 / 3600 * (inside_c - outside_c)
        return through_walls + with_air


def closed_form_rise(height, width, depth, watts, outside_c, altitude_m):
    """K; fit to the balance for a painted box on a wall without inside fan, within 5 %."""
    area = width * height + 2 * depth * height + (1.10 + 0.85) * width * depth
    return (0.4271 * (watts / area) ** 0.8779 * height ** 0.0288 *
            (1 - 0.0043 * (outside_c - 35)) * (1 + 0.024 * altitude_m / 1000))
