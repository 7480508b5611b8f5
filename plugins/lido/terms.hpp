// Addresses of published terms of the LIDO terminology (http://terminology.lido-schema.org/), CC0.
// Source: LIDO terminology, list of terms with their classes in CIDOC CRM.
#pragma once

namespace lathbook::lido::term {

inline constexpr char base[] = "http://terminology.lido-schema.org/";

inline constexpr char uri_id[] = "http://terminology.lido-schema.org/lido00099";
inline constexpr char local_id[] = "http://terminology.lido-schema.org/lido00100";
inline constexpr char inventory_number[] = "http://terminology.lido-schema.org/lido00113";
inline constexpr char material[] = "http://terminology.lido-schema.org/lido00132";
inline constexpr char item_record[] = "http://terminology.lido-schema.org/lido00141";
inline constexpr char preferred[] = "http://terminology.lido-schema.org/lido00169";
inline constexpr char alternative[] = "http://terminology.lido-schema.org/lido00170";
inline constexpr char provided_image[] = "http://terminology.lido-schema.org/lido00464";
inline constexpr char current_repository[] = "http://terminology.lido-schema.org/lido00475";

}  // namespace lathbook::lido::term
