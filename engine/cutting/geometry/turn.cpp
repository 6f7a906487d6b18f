// Turning by whole degrees in integers alone, so that every compiler gives the same corners.
#include "engine/cutting/geometry/exact.h"

#include <array>
#include <utility>

namespace endband::cutting {

namespace {

using exact::Wide;

struct Sine {
  std::uint64_t high, low;
};
// sin(0), sin(1), ... sin(90 degrees) in units of 2^-96, rounded to nearest: mpmath 1.2.1 at 400 bits,
// floor(sin(pi * d / 180) * 2^96 + 1/2). With corners of up to 10 m the product is right to 2^-71 um.
constexpr std::array<Sine, 91> sines{
    {{0x0, 0x0000000000000000},        {0x477c2ca, 0xe2774795834d6815},  {0x8ef2c64, 0xfbee13ad45359600},
     {0xd65e3a4, 0x77e486dcaa6d5f06},  {0x11db8f6d, 0x6a5127e154722390}, {0x164fd6b8, 0xc281028dd28feb8d},
     {0x1ac2609b, 0x3c576c0a313c44a7}, {0x1f32d44c, 0x4f62d35c76d1a971}, {0x23a0d92d, 0x1b3c32739073176a},
     {0x280c16cf, 0x50a6ea00ee62887f}, {0x2c7434fc, 0x16e71345dcfe0e36}, {0x30d8dbba, 0xecc49e94785e1d46},
     {0x3539b358, 0x84b1eb9b06e9edf8}, {0x3996646d, 0x9b8ce99cd78e13c2}, {0x3dee97e5, 0xc9723975e1390485},
     {0x4241f706, 0x4c1a41a5ec4dc53f}, {0x46902b74, 0xca38a59bc8cbb922}, {0x4ad8df3e, 0x0f571d06ee1a1c0b},
     {0x4f1bbcdc, 0xbfa53e0af9ce6030}, {0x53586f40, 0x03376dc12551f7dc}, {0x578ea1d2, 0x282fd57371a64afd},
     {0x5bbe007f, 0x3b4cf05e9f0bb03a}, {0x5fe637bb, 0x965a057ce7221fdb}, {0x6406f48a, 0x63feaad4e8332617},
     {0x681fe484, 0x186b43f67fb5387b}, {0x6c30b5dc, 0xde614ba1ed01fa5d}, {0x7039176a, 0xf81720fb2576962d},
     {0x7438b8ad, 0x13780311a97706ed}, {0x782f49d0, 0x9141e1d97f1131c4}, {0x7c1c7bb7, 0xbe83b1e08e08d88a},
     {0x80000000, 0x0000000000000000}, {0x83d98907, 0xeef89bee49373773}, {0x87a8c9f5, 0x66e953d6249509f5},
     {0x8b6d76bb, 0x83b8e7da6218e845}, {0x8f274420, 0x8fe8929e7574f4a9}, {0x92d5e7c3, 0xe24bc3700b04246d},
     {0x96791823, 0xaad2ef6da132d6ea}, {0x9a108ca2, 0xadf5b0e798ef3c0c}, {0x9d9bfd8d, 0xee49c72207c0962c},
     {0xa11b2422, 0x43d5ec72c4667039}, {0xa48dba91, 0xe0b0e55cebe730d0}, {0xa7f37c09, 0xc27ea0a50953db79},
     {0xab4c24b7, 0x105ebe4a0110c1b3}, {0xae9771cc, 0x64e159b9188095a7}, {0xb1d52187, 0x039882587ab05468},
     {0xb504f333, 0xf9de6484597d89b3}, {0xb826a735, 0x2a69c43783b01a53}, {0xbb39ff06, 0x434c11b09ccd1e10},
     {0xbe3ebd41, 0x9df60f5814cd1f20}, {0xc134a5a5, 0x08e1b6d6f15f6501}, {0xc41b7d16, 0x7a81c9913ad5051f},
     {0xc6f309a8, 0xad193e6d9f889d86}, {0xc9bb129f, 0xa31e8bdb4028f2d5}, {0xcc736075, 0x13d0a13aa23c4fc8},
     {0xcf1bbcdc, 0xbfa53e0af9ce6030}, {0xd1b3f2c8, 0xac3a375c486fd41c}, {0xd43bce6d, 0x477524e39def4d03},
     {0xd6b31d45, 0x717ede82f760c725}, {0xd919ae16, 0x6d4a28fb2871aa18}, {0xdb6f50f3, 0xb756ecacc667f3a3},
     {0xddb3d742, 0xc265539d92ba16b8}, {0xdfe713be, 0x99ce344249b55bb7}, {0xe208da7b, 0x69383ca86da74018},
     {0xe41900e9, 0xe963655fa1ce262b}, {0xe6175dda, 0xb1c64cc4f2617094}, {0xe803c981, 0x6ebb39ea1affbfa9},
     {0xe9de1d77, 0xfbfcaa152b0aa4d8}, {0xeba634c1, 0x63337497190df939}, {0xed5bebcc, 0xbe5abe4ed09c0a3f},
     {0xeeff2077, 0xfdc0286e8deb2605}, {0xf08fb212, 0x9168dcd717d31355}, {0xf20d815f, 0xf5a6556b69bd8247},
     {0xf378709a, 0x22a7faf31bb70d18}, {0xf4d06373, 0xded8fb4d745b31d2}, {0xf6153f1a, 0xf3dbfdad64e91ed8},
     {0xf746ea3a, 0x45f8a62a45cb4ef3}, {0xf8654cfb, 0xcdd127f4437c0d8a}, {0xf970510a, 0x743876c0069ab1b3},
     {0xfa67e193, 0xd003fc54fadf21e3}, {0xfb4beb49, 0xc5b60e662ea5d355}, {0xfc1c5c64, 0x08e0bad05d8d7bcd},
     {0xfcd924a1, 0x7f22dcd163722073}, {0xfd823549, 0x84a3cc9eeee2b607}, {0xfe17812d, 0x11f45bbc81226224},
     {0xfe98fca7, 0xc33e336420e80f65}, {0xff069da0, 0xc0ad0f11f8061eca}, {0xff605b8b, 0x87ffb3999aeb8ad6},
     {0xffa62f68, 0x9730eaec0b8fef31}, {0xffd813c5, 0xf82b35afa3a63bb9}, {0xfff604bf, 0xad7c4dced7400ffd},
     {0x100000000, 0x0000000000000000}}};

constexpr Wide one = Wide{1} << 96;

Wide first_quarter(int degrees) {
  Sine const& sine = sines.at(static_cast<std::size_t>(degrees));
  return (static_cast<Wide>(sine.high) << 64) + static_cast<Wide>(sine.low);
}

Wide sine(int degrees) {  // 0 <= degrees < 450
  if (degrees >= 360) degrees -= 360;
  Wide const size = first_quarter(degrees % 180 <= 90 ? degrees % 180 : 180 - degrees % 180);
  return degrees < 180 ? size : -size;
}

std::int64_t to_whole(Wide value) {  // from units of 2^-96, half away from zero
  Wide const size = ((value < 0 ? -value : value) + one / 2) >> 96;
  return static_cast<std::int64_t>(value < 0 ? -size : size);
}

}  // namespace

Polygon turned(Polygon const& polygon, int degrees) {
  int const angle = (degrees % 360 + 360) % 360;
  Wide const sin = sine(angle), cos = sine(angle + 90);
  Polygon result;
  result.reserve(polygon.size());
  for (Point corner : polygon)
    result.push_back({to_whole(corner.x * cos - corner.y * sin), to_whole(corner.x * sin + corner.y * cos)});
  Box const box = box_of(result);
  return moved(std::move(result), {-box.left, -box.bottom});
}

}  // namespace endband::cutting
