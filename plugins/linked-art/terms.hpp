// Terms of the Art and Architecture Thesaurus that Linked Art asks for or that the archive surely means.
// Source: vocabulary labels and model pages of linked.art 1.0 (2025); only ids that were found published.
#pragma once

namespace lathbook::linked_art::aat {

inline constexpr char primary_name[] = "300404670";
inline constexpr char alternate_name[] = "300264273";
inline constexpr char local_number[] = "300404621";
inline constexpr char statement[] = "300418049";
inline constexpr char note[] = "300027200";
inline constexpr char description[] = "300435416";
inline constexpr char markings[] = "300435420";
inline constexpr char inscription[] = "300435414";
inline constexpr char condition[] = "300435425";
inline constexpr char materials[] = "300435429";
inline constexpr char dimensions[] = "300435430";
inline constexpr char type_of_work[] = "300435443";
inline constexpr char building[] = "300004792";
inline constexpr char photograph[] = "300046300";
inline constexpr char drawing[] = "300034787";

}  // namespace lathbook::linked_art::aat
